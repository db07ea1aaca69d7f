// backrow lens fit: a lens profile out of test frames.

#include "console.h"
#include "lens_verbs.h"
#include "output_file.h"
#include "scene_arguments.h"
#include "spelt_options.h"
#include "test_frames.h"

#include "report/lens/edge_contrasts.h"
#include "report/lens/fit_report.h"
#include "report/lens/fitted_terms.h"
#include "scene/limits.h"
#include "scene_file/editing/write_lens_profile.h"
#include "scene_file/reading/measured_lens.h"

#include "base/file_endings.h"

#include <fmt/chrono.h>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <ctime>
#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace {

using namespace backrow;

struct FitArguments {
    TestFrames frames;
    std::string output;
    std::string title;
    std::vector<double> f_numbers;
    double focal_length_mm = 0;
    double distance_m = 0;
    double sensor_width_mm = 36;
    bool is_drawn = false;
    TableFormat format = TableFormat::text;
};

/// f-numbers and focal lengths of the command line before those that cameras noted.
std::vector<Problem> complete(std::vector<report::FrameEdges>& frames,
                              const FitArguments& arguments) {
    std::vector<Problem> problems;
    for (std::size_t i = 0; i < frames.size(); ++i) {
        report::FrameEdges& frame = frames[i];
        if (!arguments.f_numbers.empty())
            frame.f_number = arguments.f_numbers[arguments.f_numbers.size() == 1 ? 0 : i];
        if (arguments.focal_length_mm > 0)
            frame.focal_length_mm = arguments.focal_length_mm;
        if (!frame.f_number)
            problems.push_back({.where = {.file = frame.image},
                                .what = "no f-number is noted in the file",
                                .mend = "say it: --f-number 1.4, once for each frame"});
        if (!frame.focal_length_mm)
            problems.push_back({.where = {.file = frame.image},
                                .what = "no focal length is noted in the file",
                                .mend = "say it: --focal-length 50"});
    }
    if (!problems.empty())
        return problems;
    const report::FrameEdges& first = frames.front();
    for (const report::FrameEdges& frame : frames) {
        if (frame.focal_length_mm != first.focal_length_mm)
            problems.push_back(
                {.where = {.file = frame.image},
                 .what = fmt::format("taken with {:g} mm, and {} with {:g} mm",
                                     *frame.focal_length_mm, first.image, *first.focal_length_mm),
                 .mend = "give frames of one focal length"});
        if (frame.width_px != first.width_px || frame.height_px != first.height_px)
            problems.push_back({.where = {.file = frame.image},
                                .what = fmt::format("has another size than {}", first.image),
                                .mend = "give whole frames of one camera, held the same way"});
    }
    return problems;
}

/// The file of a lens, its errors with their uncertainty.
std::string with_what_is_told(const report::FitReport& report,
                              const scene_file::NamedLensProfile& lens) {
    std::map<std::string, std::string> comments;
    const auto add = [&](std::string_view key, double error) {
        if (std::isfinite(error))
            comments[std::string{key}] = fmt::format("± {:.2g}", report::told_errors * error);
    };
    for (const optics::FittedTerm& term : report.fit.terms)
        add(term.key, term.error_dpt);
    add("vignetting", report.light.vignetting_error);
    add("natural_falloff", report.light.natural_falloff_error);
    std::string text = "# ± is two standard errors: nineteen of twenty lie within.\n";
    for (const std::string& sentence : untold_sentences(report))
        text += "# " + sentence + '\n';
    return text + lens_profile_toml(lens, comments);
}

std::string profile_text(const report::FitReport& report,
                         const std::vector<optics::MeasuredContrast>& measured) {
    const std::time_t now = std::time(nullptr);
    scene_file::NamedLensProfile lens{.title = report.title.empty() ? "Own lens" : report.title,
                                      .origin = "fitted " + source_words(report),
                                      .date = fmt::format("{:%Y-%m-%d}", fmt::localtime(now)),
                                      .profile = report.fit.profile};
    lens.profile.focal_length_mm = report.shots.focal_length_mm;
    lens.measured_pixel_mm = report.shots.pixel_mm;
    for (const optics::MeasuredContrast& one : measured)
        if (std::abs(one.mtf - 0.5) < 0.02)
            lens.measured.push_back({.f_number = one.f_number,
                                     .image_height = std::min(1.0, one.image_height),
                                     .mtf50_cy_per_mm = one.cy_per_mm});
    return with_what_is_told(report, lens);
}

ExitCode write_and_print(const FitArguments& arguments, const report::FitReport& report,
                         const std::string& profile) {
    return console::deliver(
        arguments.output, profile,
        in_format(arguments.format, report, report::fit_text, report::fit_json, report::fit_csv));
}

/// From what a profile says was measured.
ExitCode fit_measurements(const FitArguments& arguments) {
    const std::string& file = arguments.frames.images.front();
    auto lens = scene_file::read_lens_profile(file);
    if (!lens)
        return console::refuse(lens.error());
    if (!lens->fit)
        return console::refuse(
            {{.where = {.file = file},
              .what = lens->measured.empty() ? "says of no measurement"
                                             : "has errors of the lens already",
              .mend = lens->measured.empty()
                          ? "write them as [[measured]], or give frames of a chart"
                          : "take out spherical_dpt and its like to have them fitted"}});
    if (!arguments.title.empty())
        lens->title = arguments.title;
    const report::FitReport report{.title = lens->title,
                                   .shots = measured_shots(*lens),
                                   .light = {.vignetting = lens->profile.vignetting,
                                             .natural_falloff = lens->profile.natural_falloff},
                                   .fit = *lens->fit,
                                   .measurements = lens->measured.size()};
    return write_and_print(arguments, report, with_what_is_told(report, *lens));
}

ExitCode lens_fit(const FitArguments& arguments) {
    if (arguments.frames.images.size() == 1 && ends_in(arguments.frames.images.front(), ".toml")) {
        if (const ExitCode code = check({{"-o", arguments.output, {".toml"}}});
            code != ExitCode::done)
            return code;
        return fit_measurements(arguments);
    }
    if (arguments.f_numbers.size() > 1 &&
        arguments.f_numbers.size() != arguments.frames.images.size())
        return console::refuse_command(fmt::format(
            "--f-number is given {} times for {} frames; give it once for each, or once for all",
            arguments.f_numbers.size(), arguments.frames.images.size()));
    if (const ExitCode code = check({{"-o", arguments.output, {".toml"}}}); code != ExitCode::done)
        return code;
    auto measured = arguments.frames.measured();
    if (!measured)
        return console::refuse(measured.error());
    if (!*measured)
        return console::say_interrupted();
    std::vector<report::FrameEdges>& frames = **measured;
    if (const auto problems = complete(frames, arguments); !problems.empty())
        return console::refuse(problems);

    const int long_side_px = std::max(frames.front().width_px, frames.front().height_px);
    const double pixel_mm = arguments.sensor_width_mm / long_side_px;
    const double focal_length_mm = *frames.front().focal_length_mm;
    // What matters of it is how far the lens is drawn out, which is little.
    constexpr double usual_focal_lengths = 40;
    report::FitReport report{
        .title = arguments.title,
        .shots = {.focal_length_mm = focal_length_mm,
                  .distance_m = arguments.distance_m > 0
                                    ? arguments.distance_m
                                    : usual_focal_lengths * focal_length_mm / 1000,
                  .pixel_mm = pixel_mm,
                  .half_diagonal_mm =
                      pixel_mm * std::hypot(frames.front().width_px, frames.front().height_px) / 2,
                  .light = arguments.is_drawn ? optics::Light::rays : optics::Light::waves},
        .frames = frames.size()};
    for (const report::FrameEdges& frame : frames)
        report.edges += static_cast<std::size_t>(std::ranges::count_if(
            frame.edges, [](const auto& edge) { return edge.sharpness.has_value(); }));
    const auto contrasts = edge_contrasts(frames, pixel_mm);
    report.light = fit_light(report.shots, edge_light(frames)).value_or(optics::LightFit{});
    const auto fit = fit_profile(report.shots, contrasts, report.light);
    if (!fit)
        return console::refuse({{.where = {.file = frames.front().image},
                                 .what = "too few edges to fit a lens from",
                                 .mend = "photograph the chart of tools/make-chart so that it "
                                         "fills the frame, at several openings"}});
    report.fit = *fit;

    return write_and_print(arguments, report, profile_text(report, contrasts));
}

}  // namespace

void add_lens_fit(CLI::App& lens, ExitCode& result) {
    auto* verb = lens.add_subcommand(
        "fit", "A lens profile from test frames: one chart, focused once, at several openings");
    verb->footer("Example: backrow lens fit chart-*.jpg -o my-fifty.toml --title \"My fifty\"");
    const auto arguments = std::make_shared<FitArguments>();
    arguments->frames.add_to(*verb);
    add_output_file(*verb, "-o,--output", arguments->output, "The profile", "PROFILE.toml")
        ->required();
    verb->add_option("--title", arguments->title, "What the lens is called")->type_name("TEXT");
    const auto in_range = [](scene::Range<double> range) {
        return CLI::Range(range.least, range.greatest);
    };
    verb->add_option("--f-number", arguments->f_numbers,
                     "Of the frames, where their files do not note it; once, or once for each")
        ->type_name("N")
        ->allow_extra_args(false)
        ->check(in_range(scene::limits::f_number))
        ->transform(as_spelt(Measure::f_number));
    verb->add_option("--focal-length", arguments->focal_length_mm,
                     "Where their files do not note it")
        ->type_name("MM")
        ->check(in_range(scene::limits::focal_length_mm))
        ->transform(as_spelt(Measure::millimetres));
    verb->add_option("--distance", arguments->distance_m, "Lens to chart; default 40 focal lengths")
        ->type_name("METRES")
        ->check(in_range(scene::limits::lens_to_mark_m))
        ->transform(as_spelt(Measure::metres));
    verb->add_option("--sensor-width", arguments->sensor_width_mm, "Along its longer side")
        ->type_name("MM")
        ->check(in_range(scene::limits::sensor_mm))
        ->transform(as_spelt(Measure::millimetres))
        ->capture_default_str();
    verb->add_flag("--drawn", arguments->is_drawn,
                   "The frames are pictures of `preview`, which knows no diffraction");
    add_format(*verb, arguments->format);
    verb->callback([arguments, &result] { result = lens_fit(*arguments); });
}
