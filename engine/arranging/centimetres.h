#pragma once

// Statures and places are known, and written, to a centimetre.

#include <cmath>

namespace backrow::arranging {

[[nodiscard]] inline double to_centimetre(double m) {
    return std::round(m * 100) / 100;
}

/// Not down, but for what rounding has added.
[[nodiscard]] inline double up_to_centimetre(double m) {
    return std::ceil(m * 100 - 1e-9) / 100;
}

}  // namespace backrow::arranging
