#include "report/lens/fit_report.h"

#include "report/lens/fitted_terms.h"
#include "report/text/csv.h"
#include "report/text/json.h"
#include "report/text/text_table.h"

#include "base/utf8.h"

#include <fmt/format.h>

#include <cmath>
#include <string_view>

namespace backrow::report {
namespace {

/// "1.24 ± 0.02", or "–" where it is not told.
std::string with_error(double share, double error) {
    return std::isfinite(error) ? fmt::format("{:.2f} ± {:.2f}", share, told_errors * error) : "–";
}

}  // namespace

std::string source_words(const FitReport& report) {
    if (report.frames == 0)
        return fmt::format("from {} measurements", report.measurements);
    return fmt::format("from {} frame{}, {} edges", report.frames, report.frames == 1 ? "" : "s",
                       report.edges);
}

std::vector<std::string> untold_sentences(const FitReport& report) {
    std::vector<std::string> all;
    const auto add = [&](const char* name) {
        all.push_back(fmt::format("These {} do not tell its {}; it is taken to be none.",
                                  report.frames == 0 ? "measurements" : "frames", name));
    };
    for (const optics::FittedTerm& term : report.fit.terms)
        if (!term.is_told())
            add(words_of(term).name);
    if (report.frames > 0 && !std::isfinite(report.light.vignetting_error))
        add("vignetting");
    if (report.frames > 0 && !std::isfinite(report.light.natural_falloff_error))
        add("natural falloff");
    all.push_back("A lens that errs the other way round would leave the same contrast: the edge of "
                  "its opening is taken to focus nearer, as in most.");
    all.push_back("Colour, blades and the camera's own focus are not measured here.");
    return all;
}

std::string fit_text(const FitReport& report) {
    std::string text = fmt::format("{}: {:g} mm f/{:g}, {}\n\n",
                                   report.title.empty() ? "Your lens" : on_one_line(report.title),
                                   report.shots.focal_length_mm, report.fit.profile.widest_f_number,
                                   source_words(report));
    std::vector<std::vector<std::string>> rows;
    for (const optics::FittedTerm& term : report.fit.terms) {
        const bool is_told = term.is_told();
        rows.push_back({words_of(term).name, is_told ? fmt::format("{:+.4f}", term.dpt) : "-",
                        is_told ? fmt::format("{:.4f}", told_errors * term.error_dpt) : "not told",
                        words_of(term).where});
    }
    text += text_table({{"error", Align::left}, {"dioptres"}, {"±"}, {"where", Align::left}}, rows);
    text += fmt::format("\n± is two standard errors: nineteen of twenty lie within.\n"
                        "This lens leaves the contrast that was measured to within {:.1f} % on "
                        "average, {:.0f} % at worst.\n",
                        100 * report.fit.typical_misfit, 100 * report.fit.worst_misfit);
    if (report.frames > 0)
        text += fmt::format(
            "Light towards the corners: rims {} radii apart, {} of the cos⁴ law, "
            "to within {:.1f} %; all unevenness of the lamps is in it.\n",
            with_error(report.light.vignetting, report.light.vignetting_error),
            with_error(report.light.natural_falloff, report.light.natural_falloff_error),
            100 * report.light.typical_misfit);
    for (const std::string& sentence : untold_sentences(report))
        text += sentence + '\n';
    return text;
}

std::string fit_csv(const FitReport& report) {
    std::string text = csv_record({"key", "value", "error"});
    const auto add = [&](std::string_view key, double value, double error) {
        text += csv_record({std::string{key}, std::isfinite(error) ? number_field(value) : "",
                            number_field(error)});
    };
    for (const optics::FittedTerm& term : report.fit.terms)
        add(term.key, term.dpt, term.error_dpt);
    if (report.frames > 0) {
        add("vignetting", report.light.vignetting, report.light.vignetting_error);
        add("natural_falloff", report.light.natural_falloff, report.light.natural_falloff_error);
    }
    return text;
}

std::string fit_json(const FitReport& report) {
    return json_text({{"title", report.title},
                      {"focal_length_mm", report.shots.focal_length_mm},
                      {"widest_f_number", report.fit.profile.widest_f_number},
                      {"distance_m", report.shots.distance_m},
                      {"frames", report.frames},
                      {"edges", report.edges},
                      {"measurements", report.measurements},
                      {"terms", terms_json(report.fit.terms)},
                      {"vignetting", report.light.vignetting},
                      {"vignetting_error", number_or_null(report.light.vignetting_error)},
                      {"natural_falloff", report.light.natural_falloff},
                      {"natural_falloff_error", number_or_null(report.light.natural_falloff_error)},
                      {"light_misfit", report.light.typical_misfit},
                      {"typical_misfit", report.fit.typical_misfit},
                      {"worst_misfit", report.fit.worst_misfit}});
}

}  // namespace backrow::report
