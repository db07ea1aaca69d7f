#include "report/lens/fitted_terms.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <string_view>
#include <utility>

namespace backrow::report {

TermWords words_of(const optics::FittedTerm& term) {
    static constexpr std::array<std::pair<std::string_view, TermWords>, 5> all{
        {{"spherical_dpt", {"spherical aberration", "at the edge of the widest opening"}},
         {"field_curvature_dpt", {"field curvature", "in the corner"}},
         {"astigmatism_dpt", {"astigmatism", "in the corner"}},
         {"coma_dpt", {"coma", "in the corner, at the edge of the widest opening"}},
         {"focus_dpt", {"focus of the frames", "nearer than the chart; not the lens's"}}}};
    return std::ranges::find_if(all, [&](const auto& it) { return it.first == term.key; })->second;
}

std::string terms_in_words(const std::vector<optics::FittedTerm>& terms) {
    std::vector<std::string> parts;
    for (const optics::FittedTerm& term : terms)
        parts.push_back(term.is_told() ? fmt::format("{} {:+.4f} ± {:.4f}", words_of(term).name,
                                                     term.dpt, told_errors * term.error_dpt)
                                       : fmt::format("{} not told", words_of(term).name));
    return fmt::format("{}", fmt::join(parts, ", "));
}

Json terms_json(const std::vector<optics::FittedTerm>& terms) {
    Json all = Json::array();
    for (const optics::FittedTerm& term : terms)
        all.push_back({{"key", std::string{term.key}},
                       {"dpt", term.dpt},
                       {"error_dpt", number_or_null(term.error_dpt)},
                       {"told", term.is_told()}});
    return all;
}

}  // namespace backrow::report
