#pragma once

// What a blur means for the way in which a scene's picture will be seen, and the largest that still
// earns a grade (optics/viewing.h).

#include "scene/camera_view.h"
#include "scene/scene.h"

#include "optics/viewing.h"

namespace backrow::scene {

/// In what a scene's blur is judged.
[[nodiscard]] optics::BlurUnit blur_unit(const Viewing& viewing) noexcept;

/// blur_mm  on the sensor
[[nodiscard]] optics::JudgedBlur judged_blur(double blur_mm, const Viewing& viewing,
                                             const CameraView& view) noexcept;

/// The largest blur that earns the grade: diameter on the sensor, millimetres; infinite for lost.
[[nodiscard]] double blur_limit_mm(optics::Grade grade, const Viewing& viewing,
                                   const CameraView& view) noexcept;

}  // namespace backrow::scene
