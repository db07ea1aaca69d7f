#pragma once

// Where things stand in a TOML text, as offsets into it.

#include <toml++/toml.h>

#include <cstddef>
#include <string_view>

namespace backrow::scene_file {

/// From begin up to, not including, end; bytes.
struct Stretch {
    std::size_t begin = 0;
    std::size_t end = 0;
};

/// Lines and columns are counted from 1, columns in characters of UTF-8.
[[nodiscard]] std::size_t offset_of(std::string_view text, const toml::source_position& place);

/// Where a value stands, as the parser noted it.
[[nodiscard]] Stretch stretch_of(std::string_view text, const toml::node& value);

/// The line that this offset lies on, its line feed included.
[[nodiscard]] Stretch line_round(std::string_view text, std::size_t offset);

}  // namespace backrow::scene_file
