#include "scene/set_words.h"

#include <fmt/format.h>

#include <cmath>

namespace backrow::scene {

std::string toml_number(double value) {
    constexpr double steps_in_one = 1e9;
    const double rounded = std::round(value * steps_in_one) / steps_in_one + 0.0;  // No −0.
    const std::string digits = fmt::format("{}", rounded);
    return digits.find_first_of(".e") == std::string::npos ? digits + ".0" : digits;
}

std::string toml_string(std::string_view text) {
    std::string escaped = "\"";
    for (const char c : text) {
        if (c == '"' || c == '\\')
            escaped += '\\';
        escaped += c;
    }
    return escaped + '"';
}

std::string person_key(std::string_view name, std::string_view key) {
    const bool is_plain = name.find_first_of(".= \t\"\\") == name.npos;
    return fmt::format("person.{}.{}", is_plain ? std::string{name} : toml_string(name), key);
}

std::string set_number(std::string_view key, double value) {
    return fmt::format("{}={}", key, toml_number(value));
}

std::string set_person_number(std::string_view name, std::string_view key, double value) {
    return set_number(person_key(name, key), value);
}

std::string set_words(std::string_view key, std::string_view words) {
    return fmt::format("{}={}", key, toml_string(words));
}

}  // namespace backrow::scene
