#include "report/lens/fit_report.h"

#include "report/lens/fitted_terms.h"
#include "report/text/csv.h"
#include "report/text/json.h"
#include "report/text/text_table.h"

#include "base/utf8.h"

#include <fmt/format.h>

namespace backrow::report {
std::string source_words(const FitReport& report) {
    if (report.frames == 0)
        return fmt::format("from {} measurements", report.measurements);
    return fmt::format("from {} frame{}, {} edges", report.frames, report.frames == 1 ? "" : "s",
                       report.edges);
}

std::vector<std::string> untold_sentences(const FitReport& report) {
    std::vector<std::string> all;
    for (const optics::FittedTerm& term : report.fit.terms)
        if (!term.is_told())
            all.push_back(fmt::format("These {} do not tell its {}; it is taken to be none.",
                                      report.frames == 0 ? "measurements" : "frames",
                                      words_of(term).name));
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
                        is_told ? fmt::format("{:.4f}", term.error_dpt) : "not told",
                        words_of(term).where});
    }
    text += text_table({{"error", Align::left}, {"dioptres"}, {"±"}, {"where", Align::left}}, rows);
    text += fmt::format("\nThis lens leaves the contrast that was measured to within {:.1f} % on "
                        "average, {:.0f} % at worst.\n",
                        100 * report.fit.typical_misfit, 100 * report.fit.worst_misfit);
    if (report.frames > 0)
        text += fmt::format(
            "Light towards the corners: rims {:.2f} radii apart, {:.2f} of the cos⁴ law, "
            "to within {:.1f} %; all unevenness of the lamps is in it.\n",
            report.light.vignetting, report.light.natural_falloff,
            100 * report.light.typical_misfit);
    for (const std::string& sentence : untold_sentences(report))
        text += sentence + '\n';
    return text;
}

std::string fit_csv(const FitReport& report) {
    std::string text = csv_record({"key", "dpt", "error_dpt"});
    for (const optics::FittedTerm& term : report.fit.terms)
        text += csv_record({std::string{term.key}, term.is_told() ? number_field(term.dpt) : "",
                            number_field(term.error_dpt)});
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
                      {"natural_falloff", report.light.natural_falloff},
                      {"light_misfit", report.light.typical_misfit},
                      {"typical_misfit", report.fit.typical_misfit},
                      {"worst_misfit", report.fit.worst_misfit}});
}

}  // namespace backrow::report
