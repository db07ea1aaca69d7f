#pragma once

// Directions on the ground, engine space.

#include "base/units.h"

#include <glm/vec3.hpp>

#include <cmath>

namespace backrow::plan {

/// Turned from straight towards the camera side (+z) to picture right (+x).
[[nodiscard]] inline glm::dvec3 facing(double turn_deg) {
    const double turn_rad = rad_from_deg(turn_deg);
    return {std::sin(turn_rad), 0, std::cos(turn_rad)};
}

}  // namespace backrow::plan
