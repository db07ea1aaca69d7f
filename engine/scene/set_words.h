#pragma once

// Values as --set takes them and a scene file has them.

#include <string>
#include <string_view>

namespace backrow::scene {

/// The shortest digits that read back as the same number, with a point, as a measure has; without
/// what lies beyond the ninth decimal, which is only rounding.
[[nodiscard]] std::string toml_number(double value);

/// The text as a TOML string, in quotation marks. text is UTF-8 without control characters.
[[nodiscard]] std::string toml_string(std::string_view text);

/// "person.Bram.back_m"; a name with dots, equals signs, spaces, quotation marks or
/// backslashes in quotation marks, the last two behind a backslash.
[[nodiscard]] std::string person_key(std::string_view name, std::string_view key);

/// "camera.f_number=2.8"
[[nodiscard]] std::string set_number(std::string_view key, double value);

/// "person.Bram.back_m=0.1"
[[nodiscard]] std::string set_person_number(std::string_view name, std::string_view key,
                                            double value);

/// "focus.on=\"Bram\""
[[nodiscard]] std::string set_words(std::string_view key, std::string_view words);

}  // namespace backrow::scene
