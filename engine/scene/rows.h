#pragma once

// Who stands in which row, and the group as it stands, for whoever shows people one by one.

#include "scene/camera_view.h"
#include "scene/scene.h"

#include <cstddef>
#include <vector>

namespace backrow::scene {

/// Indices in Scene::people, from picture left to picture right, as the row's list has them.
[[nodiscard]] std::vector<std::size_t> people_in_row(const Scene& scene, int row);

/// Where its people stand before they step aside, counted from the mark.
struct RowLine {
    double back_m = 0;
    double up_m = 0;
};
/// Of a row in which somebody stands.
[[nodiscard]] RowLine row_line(const Scene& scene, int row);

/// Row by row, side by side: indices in Scene::people, everybody once: the hindmost row first, in
/// each from picture left to picture right. Whoever stands alone, and whoever is carried, is with
/// the row that stands nearest within a step, or makes one alone.
///
/// view  camera_view() of this scene
[[nodiscard]] std::vector<std::vector<std::size_t>> as_they_stand(const Scene& scene,
                                                                  const CameraView& view);

}  // namespace backrow::scene
