// backrow strip: the same scene at several apertures and from several places, side by side.

#include "console.h"
#include "missing_letters.h"
#include "output_file.h"
#include "rendering_options.h"
#include "scene_arguments.h"
#include "spelt_options.h"
#include "strip_places.h"
#include "verbs.h"

#include "delivery/strip_pictures.h"
#include "plan/comparing/strip.h"
#include "report/drawing/sheet_limits.h"
#include "report/strip/strip_report.h"
#include "scene/limits.h"

#include <fmt/format.h>

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace {

using namespace backrow;

constexpr int most_values = 8;

struct StripArguments {
    SceneArguments scene;
    std::string picture;
    StripPlacesAsked places;
    std::vector<double> f_numbers;
    int width_px = 1920;
    delivery::StripRendering rendering;
};

std::vector<double> f_numbers_of(const StripArguments& arguments, const scene::Scene& scene) {
    if (!arguments.f_numbers.empty())
        return arguments.f_numbers;
    const bool has_places =
        !arguments.places.distances_m.empty() || !arguments.places.focal_lengths_mm.empty();
    return has_places ? std::vector{scene.camera.f_number} : plan::strip_f_numbers(scene);
}

/// Whether the words of the command line make sense together; an empty message where they do.
std::string check_words(const StripArguments& arguments) {
    if (std::string wrong = check_places(arguments.places); !wrong.empty())
        return wrong;
    for (const auto& [option, numbers] :
         {std::pair{"--distances", &arguments.places.distances_m},
          std::pair{"--focal-lengths", &arguments.places.focal_lengths_mm},
          std::pair{"--f-numbers", &arguments.f_numbers}})
        if (std::string wrong = check_list(option, *numbers, most_values); !wrong.empty())
            return wrong;
    return {};
}

std::string check_size(const report::StripShape& shape) {
    const int least_px = report::least_strip_width_px(shape.columns, shape.rows);
    return shape.width_px < least_px
               ? fmt::format("--width {} is too narrow to read {} columns; take at least {}",
                             shape.width_px, shape.columns, least_px)
               : fmt::format("--width {} makes a sheet larger than {} pixels a side or {:g} "
                             "megapixels; choose a narrower one, or fewer frames",
                             shape.width_px, report::longest_sheet_side_px,
                             report::most_sheet_pixels / 1e6);
}

ExitCode strip(const StripArguments& arguments) {
    console::listen_for_interrupts();
    if (const std::string wrong = check_words(arguments); !wrong.empty())
        return console::refuse_command(wrong);
    auto scene = arguments.scene.read();
    if (!scene)
        return console::refuse(scene.error());
    const std::vector<OutputFile> outputs{{"-o", arguments.picture, {".png", ".pdf"}}};
    if (const ExitCode code = check(outputs); code != ExitCode::done)
        return code;

    tell_missing_letters(*scene);
    const auto places = strip_places(*scene, arguments.places);
    if (!places)
        return console::refuse_command(places.error());
    const std::vector<double> f_numbers = f_numbers_of(arguments, *scene);
    if (const std::string wrong = check_apertures(*scene, *places, f_numbers, "--f-numbers");
        !wrong.empty())
        return console::refuse_command(wrong);
    if (places->size() * f_numbers.size() < 2)
        return console::refuse_command(
            "one frame is no strip; name several --f-numbers, --distances or --focal-lengths");
    plan::Strip strip = plan::strip(*scene, *places, f_numbers);
    if (const ExitCode code = check_faces(strip, scene->camera, arguments.scene.path);
        code != ExitCode::done)
        return code;
    const report::StripShape shape = report::strip_shape(*scene, strip, arguments.width_px);
    auto layout = report::strip_layout(shape);
    if (!layout)
        return console::refuse_command(check_size(shape));
    const auto stage = delivery::stage_of_strip(*scene, strip);
    if (!stage)
        return console::refuse(stage.error());
    if (const ExitCode code = check_unread(outputs); code != ExitCode::done)
        return code;
    console::StepLines lines;
    auto report = delivery::make_strip(
        {.scene = std::move(*scene),
         .strip = std::move(strip),
         .places_by = arguments.places.focal_lengths_mm.empty() ? report::PlacesBy::distance
                                                                : report::PlacesBy::focal_length,
         .framing_kept = arguments.places.keep_framing,
         .units = arguments.scene.units},
        std::move(*layout), *stage, arguments.rendering, lines.follow());
    lines.wipe();
    if (!report)
        return console::refuse(report.error());
    const Bytes sheet = strip_bytes(strip_sheet_of(*report), report->layout,
                                    report::page_kind_of(arguments.picture));
    return console::deliver(arguments.picture, sheet,
                            in_format(arguments.scene.format, *report, report::strip_text,
                                      report::strip_json, report::strip_csv));
}

}  // namespace

void add_strip(CLI::App& program, ExitCode& result) {
    auto* verb = program.add_subcommand(
        "strip", "The scene at several apertures and from several places, side by side");
    verb->footer("Example: backrow strip scenes/choir.toml -o strip.png --distances 6,9.4,12 "
                 "--f-numbers 2,4\n"
                 "Every frame is focused anew as the scene says. With each comes its least sharp "
                 "face.");
    const auto arguments = std::make_shared<StripArguments>();
    arguments->scene.add_to(*verb);
    add_output_file(*verb, "-o,--output", arguments->picture, "The sheet", "OUT.png|pdf")
        ->required();
    add_numbers(*verb, "--f-numbers", arguments->f_numbers, scene::limits::f_number,
                Measure::f_number, "N",
                "Apertures; without any list the scene's own and three stops down");
    add_numbers(*verb, "--distances", arguments->places.distances_m, scene::limits::lens_to_mark_m,
                Measure::metres, "METRES", "Distances from lens to mark");
    add_numbers(*verb, "--focal-lengths", arguments->places.focal_lengths_mm,
                scene::limits::focal_length_mm, Measure::millimetres, "MM",
                "Lenses, in place of distances");
    verb->add_flag("--keep-framing", arguments->places.keep_framing,
                   "Heads as large in every frame as now: another distance changes the lens, "
                   "another lens the distance");
    verb->add_option("--width", arguments->width_px, "Width of the sheet in pixels")
        ->check(CLI::Range(16, 65535))
        ->capture_default_str();
    add_rendering(*verb, arguments->rendering.samples, arguments->rendering.quality,
                  "Points of the lens; by default enough for the largest blur");
    verb->callback([arguments, &result] { result = strip(*arguments); });
}
