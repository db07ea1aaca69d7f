#pragma once

// Where the camera stands so that a group fills its frame.

#include "scene/group_plan.h"

namespace backrow::arranging {

/// No photographer needs a ladder for our sake: the lens is never higher than somebody who stands
/// on the ground holds it. Common practice, no source.
inline constexpr double highest_lens_m = 1.75;

/// Width and height, metres, of everybody, seen from the front.
struct GroupSize {
    double width_m = 0;
    double height_m = 0;
};
[[nodiscard]] GroupSize size_of(const scene::Scene& scene);

/// Sets distance, height and place across: at the mean height of the eyes, up to highest_lens_m,
/// before the middle of the group, as close as the whole group still fits into this share of the
/// frame's width and height. Whole steps of 5 cm, and of 1 cm for the rest.
///
/// scene    everybody in place; focal length, sensor and orientation are those of its camera
/// returns  false, with scene as it was, where it does not fit from as far as scenes go
[[nodiscard]] bool frame_group(scene::Scene& scene, double fill);

/// Axial distance from the nearest to the farthest person's nearer eye, metres.
[[nodiscard]] double eye_depth_m(const scene::Scene& scene);

}  // namespace backrow::arranging
