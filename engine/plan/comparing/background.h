#pragma once

// How blurred the background is: the size of the disc that a point of light there becomes.

#include "scene/camera_view.h"
#include "scene/scene.h"

namespace backrow::plan {

struct Background {
    double axial_m = 0;  ///< Infinite where no backdrop stands behind everybody: the sky.
    double blur_mm = 0;  ///< On the sensor, on the optical axis, through the lens as it is.
    double percent_of_height = 0;  ///< The disc against the height of the picture as held.
    double percent_of_head = 0;    ///< The disc against the mean chin-to-crown height of the faces
                                   ///< whole in the picture; NaN where there are none.
};

/// Where the background is: the nearest backdrop that stands further back than everybody's eyes,
/// met where the optical axis goes through its plane; infinity where the axis does not meet it.
[[nodiscard]] double background_axial_m(const scene::Scene& scene, const scene::CameraView& view);

[[nodiscard]] Background background(const scene::Scene& scene, const scene::CameraView& view);

}  // namespace backrow::plan
