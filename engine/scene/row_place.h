#pragma once

// Where in a row somebody stands.

#include <cstddef>

namespace backrow::scene {

/// Across from the mark, metres: the row's middle stands at 0, or half a spacing to the right of it
/// where the row is staggered. index counts from picture left.
[[nodiscard]] constexpr double across_in_row_m(std::size_t index, std::size_t count,
                                               double spacing_m, bool stagger) {
    return (static_cast<double>(index) - (static_cast<double>(count) - 1) / 2 +
            (stagger ? 0.5 : 0.0)) *
           spacing_m;
}

}  // namespace backrow::scene
