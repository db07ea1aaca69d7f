#pragma once

// How somebody's movement is drawn on the sensor.

#include "scene/camera_view.h"

namespace backrow::plan {

/// What optics::streak_mm() asks for.
struct ImageMotion {
    double magnification = 0;  ///< At the point.
    double speed_mps = 0;      ///< Across its line of sight.
};

/// The image of a point at X across and d deep lies at v·X/d and so moves by v·(X' − X·d'/d)/d a
/// second: somebody who walks along the axis still moves over the picture, outwards.
///
/// point_m, velocity_mps  engine space; the point in front of the lens
[[nodiscard]] ImageMotion image_motion(const scene::CameraView& view, const glm::dvec3& point_m,
                                       const glm::dvec3& velocity_mps);

/// Somebody's walk, engine space.
[[nodiscard]] glm::dvec3 walk_mps(const scene::Person& person);

}  // namespace backrow::plan
