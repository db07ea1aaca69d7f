#pragma once

// Rooms in whole centimetres, which is how finely somebody can be asked to move.

#include "base/units.h"

#include <cmath>

namespace backrow::plan {

/// The whole centimetres in so many metres. Places of a scene file are decimal, so what they differ
/// by may lie a hair below a whole centimetre.
[[nodiscard]] inline int whole_cm(double m) {
    constexpr double rounding_cm = 1e-6;
    return static_cast<int>(std::floor(cm_from_m(m) + rounding_cm));
}

}  // namespace backrow::plan
