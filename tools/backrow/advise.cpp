// backrow advise: settings and small moves that keep every face good enough.

#include "choice.h"
#include "console.h"
#include "lens_argument.h"
#include "scene_arguments.h"
#include "spelt_options.h"
#include "verbs.h"

#include "plan/advice/advice.h"
#include "report/answers/advice_report.h"
#include "scene/limits.h"

#include "base/spelt_number.h"
#include "base/units.h"

#include <cmath>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace {

using namespace backrow;

struct AdviseArguments {
    SceneArguments scene;
    plan::AdviceWanted wanted;
    LensArguments lenses;
    double most_move_m = 0.3;
};

ExitCode print_advice(const report::AdviceReport& report, TableFormat format) {
    return console::print(
        in_format(format, report, report::advice_text, report::advice_json, report::advice_csv));
}

ExitCode advise(const AdviseArguments& arguments) {
    console::listen_for_interrupts();
    auto scene = arguments.scene.read();
    if (!scene)
        return console::refuse(scene.error());
    plan::AdviceWanted wanted = arguments.wanted;
    wanted.most_move_cm = static_cast<int>(std::lround(cm_from_m(arguments.most_move_m)));
    auto lenses = arguments.lenses.read(arguments.scene.path);
    if (!lenses)
        return console::refuse(lenses.error());
    wanted.lenses = std::move(*lenses);
    if (wanted.lenses.empty())
        wanted.lenses.push_back(plan::scene_lens(*scene));
    if (wanted.greatest_distance_m > 0 && wanted.least_distance_m > wanted.greatest_distance_m)
        return console::refuse_command("--distance-min is more than --distance-max");

    std::optional<plan::Advice> advice;
    {
        console::ProgressLine line{"Settings and moves:"};
        advice = plan::advise(*scene, wanted, [&](double share) {
            line.show(share);
            return !console::interrupted();
        });
    }
    if (!advice)
        return console::say_interrupted();
    const bool possible = !advice->answers.empty();
    const ExitCode printed = print_advice({.scene = std::move(*scene),
                                           .wanted = wanted,
                                           .advice = std::move(*advice),
                                           .units = arguments.scene.units},
                                          arguments.scene.format);
    return printed != ExitCode::done || possible ? printed : ExitCode::not_possible;
}

}  // namespace

void add_advise(CLI::App& program, ExitCode& result) {
    auto* verb = program.add_subcommand(
        "advise", "Settings and small moves that keep every face good enough");
    verb->footer("Example: backrow advise scenes/choir.toml --lens 85/1.4 --move-max 0.2");
    const auto arguments = std::make_shared<AdviseArguments>();
    arguments->scene.add_to(*verb);
    plan::AdviceWanted& wanted = arguments->wanted;
    add_choice<optics::Grade>(*verb, "--grade", wanted.grade,
                              {{"crisp", optics::Grade::crisp}, {"fine", optics::Grade::fine}},
                              "How sharp every face must be");
    constexpr double most_move_m = 2;
    verb->add_option("--move-max", arguments->most_move_m,
                     "How far anybody may move, metres; 0: nobody moves")
        ->check(CLI::Range(0.0, most_move_m))
        ->transform(as_spelt(Measure::metres))
        ->capture_default_str();
    verb->add_option("--movers-max", wanted.most_movers,
                     "How many may be asked to move; default a third of the group, at least one")
        ->type_name("N")
        ->check(CLI::Range(0, scene::limits::most_people));
    constexpr double most_margin_cm = 100;
    verb->add_option("--margin-cm", wanted.margin_cm,
                     "How far anybody may drift towards the camera or away and still be as sharp")
        ->check(CLI::Range(0.0, most_margin_cm))
        ->capture_default_str();
    verb->add_option("--distance-min", wanted.least_distance_m,
                     "Nearest that the camera may come, metres from lens to mark; else it stays")
        ->check(
            CLI::Range(scene::limits::lens_to_mark_m.least, scene::limits::lens_to_mark_m.greatest))
        ->transform(as_spelt(Measure::metres));
    verb->add_option("--distance-max", wanted.greatest_distance_m, "Farthest, likewise")
        ->check(
            CLI::Range(scene::limits::lens_to_mark_m.least, scene::limits::lens_to_mark_m.greatest))
        ->transform(as_spelt(Measure::metres));
    verb->add_option("--narrowest", wanted.narrowest_f_number, "The narrowest f-number wanted")
        ->check(CLI::Range(scene::limits::f_number.least, scene::limits::f_number.greatest))
        ->transform(as_spelt(Measure::f_number))
        ->capture_default_str();
    arguments->lenses.add_to(*verb,
                             "A lens carried: focal length, widest f-number, and a file that tells "
                             "its faults, as in 85/1.8; repeatable",
                             false);
    verb->add_flag("--crop", wanted.after_crop,
                   "The grade must hold after a crop to the present framing, too");
    verb->callback([arguments, &result] { result = advise(*arguments); });
}
