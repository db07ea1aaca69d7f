// backrow tradeoff: what distance and aperture do to the group, as a chart and a table.

#include "console.h"
#include "lens_argument.h"
#include "missing_letters.h"
#include "output_file.h"
#include "scene_arguments.h"
#include "spelt_options.h"
#include "verbs.h"

#include "plan/comparing/tradeoff.h"
#include "report/tradeoff/tradeoff_chart.h"
#include "report/tradeoff/tradeoff_report.h"
#include "scene/clearance.h"
#include "scene/limits.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace {

using namespace backrow;

struct TradeoffArguments {
    SceneArguments scene;
    std::string chart;
    plan::WantedRange wanted;
    LensArguments lenses;
};

ExitCode check_distances(const scene::Scene& scene, const plan::WantedRange& wanted,
                         const plan::TradeoffRange& range) {
    if (wanted.farthest_m || range.nearest_m < range.farthest_m) {
        const double nearer_m = std::min(range.nearest_m, range.farthest_m);
        const double nearest_m = plan::nearest_viewpoint_m(
            plan::bound_to_places(scene),
            std::max({range.nearest_m, range.farthest_m, scene.camera.lens_to_mark_m}), nearer_m);
        if (nearest_m > nearer_m)
            return console::refuse_command(fmt::format(
                "--distance-{} {:g} puts the camera among the people, or the focus within the "
                "focal length; everybody must be at least {:g} m in front of the lens, which is so "
                "from {:.2f} m on",
                nearer_m == range.nearest_m ? "min" : "max", nearer_m, scene::nearest_person_m,
                std::ceil(nearest_m * 100) / 100));
    }
    if (range.nearest_m >= range.farthest_m)
        return console::refuse_command(
            fmt::format("--distance-min {:g} must be smaller than --distance-max {:g}",
                        range.nearest_m, range.farthest_m));
    return ExitCode::done;
}

ExitCode check_apertures(const scene::Scene& scene, const plan::WantedRange& wanted,
                         const plan::TradeoffRange& range) {
    if (range.widest_f_number >= range.narrowest_f_number)
        return console::refuse_command(
            fmt::format("--widest {:g} must be a smaller number than --narrowest {:g}",
                        range.widest_f_number, range.narrowest_f_number));
    if (scene.lens.profile && wanted.widest_f_number &&
        *wanted.widest_f_number < scene.lens.profile->widest_f_number)
        return console::refuse_command(
            fmt::format("--widest {:g} is wider than the lens opens; its profile starts at f/{:g}",
                        *wanted.widest_f_number, scene.lens.profile->widest_f_number));
    if (wanted.narrowest_f_number && *wanted.narrowest_f_number > plan::narrowest_f_number(scene))
        return console::refuse_command(
            fmt::format("--narrowest {:g} is narrower than the lens closes; its profile ends at "
                        "f/{:g}",
                        *wanted.narrowest_f_number, plan::narrowest_f_number(scene)));
    return ExitCode::done;
}

ExitCode tradeoff(const TradeoffArguments& arguments) {
    const auto scene = arguments.scene.read();
    if (!scene)
        return console::refuse(scene.error());
    if (const ExitCode code = check({{"-o", arguments.chart, {".png", ".svg", ".pdf"}}});
        code != ExitCode::done)
        return code;
    const auto lenses = arguments.lenses.read(arguments.scene.path);
    if (!lenses)
        return console::refuse(lenses.error());
    const plan::TradeoffRange range = plan::tradeoff_range(*scene, arguments.wanted, *lenses);
    for (const auto check_one : {check_distances, check_apertures})
        if (const ExitCode code = check_one(*scene, arguments.wanted, range);
            code != ExitCode::done)
            return code;

    tell_missing_letters(*scene);
    console::listen_for_interrupts();
    const report::TradeoffReport report{.scene = *scene,
                                        .tradeoff = plan::tradeoff(*scene, range, *lenses),
                                        .units = arguments.scene.units};
    return console::deliver(arguments.chart,
                            tradeoff_chart_bytes(report, report::page_kind_of(arguments.chart)),
                            in_format(arguments.scene.format, report, report::tradeoff_text,
                                      report::tradeoff_json, report::tradeoff_csv));
}

void add_number(CLI::App& verb, const char* option, std::optional<double>& into,
                scene::Range<double> range, Measure measure, const char* unit,
                const char* description) {
    verb.add_option(option, into, description)
        ->type_name(unit)
        ->check(CLI::Range(range.least, range.greatest))
        ->transform(as_spelt(measure));
}

}  // namespace

void add_tradeoff(CLI::App& program, ExitCode& result) {
    auto* verb = program.add_subcommand(
        "tradeoff", "What distance and aperture do to faces and background: a chart and a table");
    verb->footer("Example: backrow tradeoff scenes/choir.toml -o choir-chart.pdf --lens 135\n"
                 "The focus is the scene's, found anew at each distance; --set focus.balanced=true "
                 "asks for another.");
    const auto arguments = std::make_shared<TradeoffArguments>();
    arguments->scene.add_to(*verb);
    add_output_file(*verb, "-o,--output", arguments->chart, "The chart", "OUT.png|svg|pdf")
        ->required();
    plan::WantedRange& wanted = arguments->wanted;
    add_number(*verb, "--distance-min", wanted.nearest_m, scene::limits::lens_to_mark_m,
               Measure::metres, "METRES",
               "Nearest distance from lens to mark; default 0.6 times the present");
    add_number(*verb, "--distance-max", wanted.farthest_m, scene::limits::lens_to_mark_m,
               Measure::metres, "METRES", "Farthest; default twice the present");
    add_number(*verb, "--widest", wanted.widest_f_number, scene::limits::f_number,
               Measure::f_number, "N", "Widest aperture; default the profile's, without one f/1.2");
    add_number(*verb, "--narrowest", wanted.narrowest_f_number, scene::limits::f_number,
               Measure::f_number, "N", "Narrowest aperture; default f/16");
    arguments->lenses.add_to(*verb,
                             "A lens carried, as in 85/1.8 or 85, to be shown where it frames as "
                             "now; repeatable",
                             true);
    verb->callback([arguments, &result] { result = tradeoff(*arguments); });
}
