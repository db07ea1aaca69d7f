#include "scene/person_words.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cstddef>

namespace backrow::scene {
namespace {

constexpr std::size_t most_name_characters = 60;
constexpr double adult_stature_m = 1.70;
constexpr double adult_age_years = 30;

std::size_t characters(std::string_view utf8) {
    return static_cast<std::size_t>(std::ranges::count_if(
        utf8, [](char c) { return (static_cast<unsigned char>(c) & 0xc0U) != 0x80U; }));
}

bool has_control_characters(std::string_view text) {
    return std::ranges::any_of(
        text, [](char c) { return static_cast<unsigned char>(c) < 0x20U || c == 0x7f; });
}

bool is_utf8(std::string_view text) {
    try {
        static_cast<void>(nlohmann::json(text).dump());
        return true;
    } catch (const nlohmann::json::type_error&) {
        return false;
    }
}

}  // namespace

std::optional<NameFault> fault_of_name(std::string_view name) {
    if (name.find_first_not_of(' ') == std::string_view::npos)
        return NameFault{"a name is empty", "write who stands here"};
    if (has_control_characters(name))
        return NameFault{"a name holds line breaks or other control characters",
                         "write it on one line"};
    if (!is_utf8(name))
        return NameFault{"a name is not UTF-8", "write it in a terminal that speaks UTF-8"};
    if (characters(name) > most_name_characters)
        return NameFault{fmt::format("a name of {} characters is too long", characters(name)),
                         fmt::format("write at most {}", most_name_characters)};
    return std::nullopt;
}

figures::BodyMeasures measures_of(std::optional<double> stature_m, std::optional<double> age_years,
                                  figures::Sex sex) {
    if (stature_m)
        return figures::body_measures(*stature_m, std::nullopt, sex);
    if (age_years)
        return figures::body_measures(figures::stature_m_from_age(*age_years, sex), *age_years,
                                      sex);
    if (sex != figures::Sex::neutral)
        return figures::body_measures(figures::stature_m_from_age(adult_age_years, sex),
                                      adult_age_years, sex);
    return figures::body_measures(adult_stature_m, adult_age_years);
}

}  // namespace backrow::scene
