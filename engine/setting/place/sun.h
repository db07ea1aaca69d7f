#pragma once

#include <glm/vec3.hpp>

namespace backrow::setting {

/// Unit vector. Azimuth 0 is behind the camera's back, 90 at picture right, 180 behind the group.
[[nodiscard]] glm::vec3 towards_sun(double elevation_deg, double azimuth_deg) noexcept;

}  // namespace backrow::setting
