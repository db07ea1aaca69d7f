#pragma once

// What every report's JSON has in common.

#include <nlohmann/json.hpp>

#include <cmath>
#include <optional>
#include <string>

namespace backrow::report {

using Json = nlohmann::ordered_json;

/// null for no number, and for one that is not finite, for which JSON has no word.
template <class Number>
[[nodiscard]] Json number_or_null(const std::optional<Number>& number) {
    return number && std::isfinite(*number) ? Json(*number) : Json(nullptr);
}
[[nodiscard]] inline Json number_or_null(double number) {
    return number_or_null(std::optional{number});
}

/// As it is written: two spaces a level, a line end at the end. Bytes that are not UTF-8 become
/// U+FFFD.
[[nodiscard]] std::string json_text(const Json& json);

}  // namespace backrow::report
