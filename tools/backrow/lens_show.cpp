// backrow lens show: what a lens does, from its profile.

#include "choice.h"
#include "console.h"
#include "lens_verbs.h"
#include "output_file.h"
#include "scene_arguments.h"
#include "spelt_options.h"

#include "optics/contrast/lens_figures.h"
#include "report/lens/lens_report.h"
#include "report/lens/lens_sheet.h"
#include "scene/limits.h"
#include "scene/words.h"
#include "scene_file/reading/lens_profile_file.h"

#include "base/file_endings.h"
#include "base/image_files.h"

#include <fmt/format.h>

#include <filesystem>
#include <memory>
#include <string>
#include <variant>

namespace {

using namespace backrow;

struct ShowArguments {
    std::string profile;
    std::string output;
    double focal_length_mm = 0;
    double distance_m = 3;
    optics::PrintViewing viewing = optics::album_viewing;
    TableFormat format = TableFormat::text;
    Units units = Units::metric;
};

Bytes sheet_bytes(const report::LensReport& report, const std::string& path) {
    const report::Canvas sheet = lens_sheet(report);
    if (ends_in(path, ".svg"))
        return sheet.svg_bytes();
    if (ends_in(path, ".pdf"))
        return sheet.pdf_bytes(lens_name(report));
    constexpr int pixels_a_point = 2;
    return png_bytes(sheet.pixels(pixels_a_point));
}

ExitCode lens_show(const ShowArguments& arguments) {
    const auto read = scene_file::read_named_lens(arguments.profile, ".");
    if (!read)
        return console::refuse(read.error());
    if (const ExitCode code = check({{"-o", arguments.output, {".png", ".svg", ".pdf"}}});
        code != ExitCode::done)
        return code;
    constexpr double usual_mm = 50;
    constexpr double usual_smallest = 16;
    const double own_mm = read->profile.focal_length_mm;
    const double focal_length_mm = arguments.focal_length_mm > 0 ? arguments.focal_length_mm
                                   : own_mm > 0                  ? own_mm
                                                                 : usual_mm;
    const optics::LensProfile profile = at_focal_length(read->profile, focal_length_mm);
    const auto lens = optics::focused_lens({.focal_length_mm = focal_length_mm,
                                            .f_number = profile.widest_f_number,
                                            .focus_m = arguments.distance_m,
                                            .profile = profile,
                                            .blades = profile.blades});
    const auto figures =
        lens ? lens_figures(*lens, arguments.distance_m,
                            profile.smallest_f_number > 0 ? profile.smallest_f_number
                                                          : usual_smallest)
             : std::nullopt;
    if (!figures)
        return console::refuse_command(
            fmt::format("--distance {:g} is too near for {:g} mm: no image forms",
                        arguments.distance_m, focal_length_mm));
    const report::LensReport report{.title = read->title,
                                    .origin = read->origin,
                                    .date = read->date,
                                    .focal_length_mm = focal_length_mm,
                                    .profile = profile,
                                    .fit = read->fit,
                                    .figures = *figures,
                                    .viewing = arguments.viewing,
                                    .units = arguments.units};
    const Bytes sheet = arguments.output.empty() ? Bytes{} : sheet_bytes(report, arguments.output);
    return console::deliver(arguments.output, sheet,
                            in_format(arguments.format, report, report::lens_text,
                                      report::lens_json, report::lens_csv));
}

}  // namespace

void add_lens_show(CLI::App& lens, ExitCode& result) {
    auto* verb = lens.add_subcommand(
        "show", "What a lens does: sharpness by opening and place, field, light, from its profile");
    verb->footer("Example: backrow lens show typical-fast-prime -o lens.pdf");
    const auto arguments = std::make_shared<ShowArguments>();
    verb->add_option("PROFILE", arguments->profile,
                     "A lens profile, or the name of one of the program's own")
        ->required();
    add_output_file(*verb, "-o,--output", arguments->output, "The same as a drawing",
                    "OUT.png|svg|pdf");
    verb->add_option("--focal-length", arguments->focal_length_mm,
                     "The profile's lens made for this focal length; default the profile's own")
        ->type_name("MM")
        ->check(CLI::Range(scene::limits::focal_length_mm.least,
                           scene::limits::focal_length_mm.greatest))
        ->transform(as_spelt(Measure::millimetres));
    verb->add_option("--distance", arguments->distance_m, "Lens to chart")
        ->type_name("METRES")
        ->check(
            CLI::Range(scene::limits::lens_to_mark_m.least, scene::limits::lens_to_mark_m.greatest))
        ->transform(as_spelt(Measure::metres))
        ->capture_default_str();
    Choices<optics::PrintViewing> prints;
    for (const auto& [word, use] : scene::words::use) {
        const scene::Viewing viewing = scene::viewing_for(use);
        if (const auto* print = std::get_if<optics::PrintViewing>(&viewing))
            prints.emplace_back(word, *print);
    }
    add_choice_of<optics::PrintViewing>(
        *verb, "--use",
        [arguments](const optics::PrintViewing& chosen) { arguments->viewing = chosen; }, prints,
        "What pictures are made for, which decides what is crisp; default album");
    add_format(*verb, arguments->format);
    add_units(*verb, arguments->units);
    verb->callback([arguments, &result] { result = lens_show(*arguments); });
}
