#pragma once

// The largest blur that still earns a grade, for the way a scene's picture will be seen.

#include "scene/camera_view.h"
#include "scene/scene.h"

#include "optics/viewing.h"

namespace backrow::scene {

/// grade    crisp, fine or soft; lost has no limit
/// returns  diameter on the sensor, millimetres; infinite for lost
[[nodiscard]] double blur_limit_mm(optics::Grade grade, const Viewing& viewing,
                                   const CameraView& view);

}  // namespace backrow::scene
