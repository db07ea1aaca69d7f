#pragma once

// What a blur means for the way a scene's picture will be seen, and the largest that still earns a
// grade.

#include "scene/camera_view.h"
#include "scene/scene.h"

#include "optics/viewing.h"

namespace backrow::scene {

/// grade    crisp, fine or soft; lost has no limit
/// returns  diameter on the sensor, millimetres; infinite for lost
[[nodiscard]] double blur_limit_mm(optics::Grade grade, const scene::Viewing& viewing,
                                   const scene::CameraView& view);

/// The blur in the unit that grades go by: arc minutes at the viewer's eye, or camera pixels where
/// these are judged one by one.
///
/// blur_mm  on the sensor
[[nodiscard]] double judged_blur(double blur_mm, const scene::Viewing& viewing,
                                 const scene::CameraView& view);

/// Likewise the largest that still earns a grade; infinite for lost.
[[nodiscard]] double judged_limit(optics::Grade grade, const scene::Viewing& viewing);

/// judged  judged_blur() with this viewing
[[nodiscard]] optics::Grade grade_of(double judged, const scene::Viewing& viewing);

}  // namespace backrow::scene
