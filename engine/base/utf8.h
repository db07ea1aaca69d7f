#pragma once

// Names are UTF-8 in any script; tables and captions need them in one line and want to know how
// wide they stand.

#include <string>
#include <string_view>
#include <vector>

namespace backrow {

[[nodiscard]] bool is_utf8(std::string_view text);

/// Whether a letter breaks or disturbs a line: control characters, line and paragraph separators.
[[nodiscard]] bool is_control(char32_t letter);

/// The code points of a text; each byte that is not UTF-8 becomes U+FFFD.
[[nodiscard]] std::vector<char32_t> code_points(std::string_view text);

[[nodiscard]] std::string utf8_from(const std::vector<char32_t>& code_points);

/// The text as valid UTF-8 on one line: control characters become spaces.
[[nodiscard]] std::string on_one_line(std::string_view text);

/// A name for use among other words, on one line: one with letters that run from right to left is
/// kept apart (U+2068 … U+2069), so that commas and numbers beside it stay where they are.
[[nodiscard]] std::string kept_apart(std::string_view name);

/// Columns the text takes in a terminal: none for marks of any script that sit on the letter
/// before, two for the wide letters of East Asian scripts, else one. Source: [UAX11], by utf8proc.
[[nodiscard]] int display_width(std::string_view text);

}  // namespace backrow
