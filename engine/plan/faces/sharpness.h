#pragma once

// How sharp each face is as detail is: what is left of its contrast after lens, movement and pixels
// (optics/contrast/mtf.h), beside the blur of the face table.

#include "scene/camera_view.h"
#include "scene/scene.h"

#include <optional>
#include <vector>

namespace backrow::plan {

struct Sharpness {
    double mtf50_cy_per_px = 0;  ///< Where half of the contrast is left.
    double mtf50_cy_per_mm = 0;
    /// Share of what the eye would see of detail at the intended viewing, 0 … 1; none pixel by
    /// pixel.
    std::optional<double> acutance{};
};

/// Of the nearer eyes, in the order of Scene::people; nothing of whoever is not in front of the
/// lens.
[[nodiscard]] std::vector<std::optional<Sharpness>>
sharpness_of_faces(const scene::Scene& scene, const scene::CameraView& view);

}  // namespace backrow::plan
