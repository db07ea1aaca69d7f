#pragma once

// The opening at which a group is sharp.

#include "scene/scene.h"

namespace backrow::arranging {

/// The widest opening of the whole stops f/2 … f/22 at which every nearer eye is crisp for the way
/// the picture is looked at, with the focus where the scene has it; where it is at
/// none, the one at which defocus and diffraction together are least.
///
/// f/2 is kept for the least, so that a single plane of eyes still forgives a sway: common
/// practice, no source.
[[nodiscard]] double f_number_for(const scene::Scene& scene);

}  // namespace backrow::arranging
