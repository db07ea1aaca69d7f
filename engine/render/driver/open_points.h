#pragma once

// Where the points of the lens go that the rims of a real one would stop: by height of the image
// and place in the opening, for shaders/lens.glsl. All passes then go through glass that is open,
// evenly, wherever in the picture.

#include "render/driver/gl.h"

#include "optics/lens/lens.h"

namespace backrow::render {

/// Rows from image height 0 to √2, columns from the middle of the opening to its edge along the
/// radius: by how much a point moves along and across it (optics::point_left_open()), and how large
/// a cell is then. One node of 1 where nothing is cut off.
[[nodiscard]] Texture make_open_points(const Gl& gl, const optics::LensSettings& lens);

/// Whether anything is cut off, at whatever height.
[[nodiscard]] bool rims_cut(const optics::LensSettings& lens) noexcept;

}  // namespace backrow::render
