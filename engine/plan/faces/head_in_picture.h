#pragma once

// A head as it lies in the picture.

#include "scene/camera_view.h"

#include <array>

namespace backrow::plan {

/// Chin, crown, ears and eyes.
[[nodiscard]] std::array<glm::dvec3, 6> head_outline_m(const figures::ReferencePoints& points);

/// All of the outline inside the picture.
[[nodiscard]] bool whole_head_in_picture(const scene::CameraView& view,
                                         const figures::ReferencePoints& points);

/// Chin to crown, camera pixels; 0 for somebody who is not in front of the lens.
[[nodiscard]] double face_height_px(const scene::CameraView& view,
                                    const figures::ReferencePoints& points);

/// The same on the sensor, millimetres.
[[nodiscard]] double face_height_mm(const scene::CameraView& view,
                                    const figures::ReferencePoints& points);

}  // namespace backrow::plan
