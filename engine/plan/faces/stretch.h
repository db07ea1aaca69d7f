#pragma once

// How a wide lens stretches heads away from the middle of the picture: a ball that is seen at an
// angle to the axis is drawn as an ellipse, longer by one over the angle's cosine [KINGSLAKE1992].

#include "scene/camera_view.h"
#include "scene/scene.h"

#include <cstddef>
#include <optional>
#include <span>

namespace backrow::plan {

/// From here on it is seen; common practice, no source.
inline constexpr double seen_stretch = 1.08;

/// 1/cos of the angle at which the middle of the head is seen; infinite beside the lens.
[[nodiscard]] double stretch_of(const scene::CameraView& view,
                                const figures::ReferencePoints& points);

/// What brings the most stretched head down to seen_stretch and keeps it as large.
struct StretchMend {
    std::size_t person = 0;
    double stretch = 1;
    double lens_to_mark_m = 0;
    double focal_length_mm = 0;
};

/// Nothing where no head is stretched that much.
[[nodiscard]] std::optional<StretchMend> mend_stretch(const scene::Scene& scene,
                                                      const scene::CameraView& view);

}  // namespace backrow::plan
