#pragma once

// What arrives of the light at each place of a crop, of all that passes made of it.
//
// A pass counts what the rims of the lens leave of its cell (shaders/lens.glsl), and a few cells,
// taken for discs, are a rough measure of an opening's area: eight of them are off by a twentieth.
// How much light there is in all is known exactly (optics/light_loss.h), so the mean of the passes
// is set right by that, natural falloff and all.

#include "render/driver/gl.h"
#include "render/passes/crop_rect.h"
#include "render/passes/lens_samples.h"

#include "scene/camera_view.h"

namespace backrow::render {

/// A coarse grid over the crop, its outermost nodes in the corners: by what the mean of the first
/// so many passes is to be multiplied. One node of 1 where the lens loses nothing.
[[nodiscard]] Texture arriving_light(const Gl& gl, const scene::CameraView& view,
                                     const CropRect& crop, const LensSamples& samples, int passes);

/// The same for what is not to be set right: 1 everywhere.
[[nodiscard]] Texture all_light(const Gl& gl);

}  // namespace backrow::render
