#pragma once

// How near the people come to the lens.

#include "scene/camera_view.h"
#include "scene/scene.h"

#include "figures/figure.h"

#include <vector>

namespace backrow::scene {

/// Nearer than this, a person is at the photographer's elbow, not in the picture.
inline constexpr double nearest_person_m = 0.3;

/// Axial distance of the nearest part of these solids; negative behind the lens.
[[nodiscard]] double nearest_part_m(const CameraView& view,
                                    const std::vector<figures::Capsule>& solids);

}  // namespace backrow::scene
