#pragma once

// What arrives of the light at each place of a crop. Passes go through what is left open of the
// lens and each counts for as much, so what is lost is taken away from their mean.

#include "render/driver/gl.h"
#include "render/passes/crop_rect.h"

#include "scene/camera_view.h"

namespace backrow::render {

/// optics::light_share() on a coarse grid over the crop, its outermost nodes in the corners. One
/// node of 1 where the lens loses nothing.
[[nodiscard]] Texture arriving_light(const Gl& gl, const scene::CameraView& view,
                                     const CropRect& crop);

/// The same for what is not to lose any: 1 everywhere.
[[nodiscard]] Texture all_light(const Gl& gl);

}  // namespace backrow::render
