#pragma once

// A guard in front of the TOML parser, which limits how deep values nest but not how many parts a
// dotted key has: a.a.a.… builds a tree too deep to be taken down again.

#include <optional>
#include <string_view>

namespace backrow::scene_file {

inline constexpr int most_key_parts = 16;

struct LineAndColumn {
    int line = 1;
    int column = 1;
};

/// Where a dotted key passes most_key_parts, if one does. Dots in strings and comments don't count.
[[nodiscard]] std::optional<LineAndColumn> first_overlong_key(std::string_view text);

}  // namespace backrow::scene_file
