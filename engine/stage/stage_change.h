#pragma once

// What of a stage that was built must be built anew when its scene has changed.

#include "scene/camera_view.h"
#include "scene/scene.h"

namespace backrow::stage {

/// Whether both scenes have the same setting, models and light; where their files name them does
/// not count.
[[nodiscard]] bool same_surroundings(const scene::Scene& one, const scene::Scene& other);

/// Whether a stage built for a view serves another as well as one of its own would: the lens in the
/// same place, the same frame, and no backdrop that would have to reach further.
[[nodiscard]] bool stage_serves(const scene::Scene& scene, const scene::CameraView& built_for,
                                const scene::CameraView& view);

}  // namespace backrow::stage
