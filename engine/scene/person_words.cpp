#include "scene/person_words.h"

#include "base/utf8.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <string>

namespace backrow::scene {
namespace {

constexpr std::size_t most_name_characters = 60;
constexpr double adult_stature_m = 1.70;
constexpr double adult_age_years = 30;

}  // namespace

std::optional<NameFault> fault_of_name(std::string_view name) {
    if (name.find_first_not_of(' ') == std::string_view::npos)
        return NameFault{"a name is empty", "write who stands here"};
    if (!is_utf8(name))
        return NameFault{"a name is not UTF-8", "write it in a terminal that speaks UTF-8"};
    const auto letters = code_points(name);
    if (std::ranges::any_of(letters, is_control))
        return NameFault{"a name holds line breaks or other control characters",
                         "write it on one line"};
    if (letters.size() > most_name_characters)
        return NameFault{fmt::format("a name of {} characters is too long", letters.size()),
                         fmt::format("write at most {}", most_name_characters)};
    return std::nullopt;
}

figures::BodyMeasures measures_of(std::optional<double> stature_m, std::optional<double> age_years,
                                  figures::Sex sex) {
    if (stature_m)
        return figures::body_measures(*stature_m, age_years, sex);
    if (age_years)
        return figures::body_measures(figures::stature_m_from_age(*age_years, sex), *age_years,
                                      sex);
    if (sex != figures::Sex::neutral)
        return figures::body_measures(figures::stature_m_from_age(adult_age_years, sex),
                                      adult_age_years, sex);
    return figures::body_measures(adult_stature_m, adult_age_years);
}

}  // namespace backrow::scene
