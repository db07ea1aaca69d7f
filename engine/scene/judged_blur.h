#pragma once

// What a blur means for the way in which a scene's picture will be seen, and the largest that still
// earns a grade (optics/blur/viewing.h). Diffraction counts as optics/contrast/diffraction.h says,
// unless the scene is to be judged by its blur alone.

#include "scene/camera_view.h"
#include "scene/scene.h"

#include "optics/blur/viewing.h"

#include <optional>

namespace backrow::scene {

/// In what a scene's blur is judged.
[[nodiscard]] optics::BlurUnit blur_unit(const Viewing& viewing) noexcept;

/// The blur that diffraction counts for: diameter on the sensor, millimetres; 0 where it does not
/// count.
[[nodiscard]] double diffraction_mm(const Scene& scene, const CameraView& view);

/// A blur as it is judged, with diffraction.
///
/// blur_mm  of defocus and lens, on the sensor
[[nodiscard]] optics::JudgedBlur judged_blur(double blur_mm, const Scene& scene,
                                             const CameraView& view);

/// The largest blur that earns the grade, whatever it comes from: diameter on the sensor,
/// millimetres; infinite for lost.
[[nodiscard]] double grade_limit_mm(optics::Grade grade, const Viewing& viewing,
                                    const CameraView& view) noexcept;

/// What of it diffraction leaves for defocus and lens; nothing where diffraction alone is beyond
/// it.
[[nodiscard]] std::optional<double> blur_limit_mm(optics::Grade grade, const Scene& scene,
                                                  const CameraView& view);

}  // namespace backrow::scene
