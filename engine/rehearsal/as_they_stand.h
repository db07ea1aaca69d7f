#pragma once

// The group as it stands, for whoever shows people one by one: row by row, side by side.

#include "scene/camera_view.h"
#include "scene/scene.h"

#include <cstddef>
#include <vector>

namespace backrow::rehearsal {

/// Indices in Scene::people, everybody once: the hindmost row first, in each from picture left to
/// picture right. Whoever stands alone, and whoever is carried, is with the row that stands nearest
/// within a step, or makes one alone.
///
/// view  camera_view() of this scene
[[nodiscard]] std::vector<std::vector<std::size_t>> as_they_stand(const scene::Scene& scene,
                                                                  const scene::CameraView& view);

}  // namespace backrow::rehearsal
