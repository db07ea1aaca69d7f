#pragma once

// Which triangles of the stage a crop can see through any point of the lens, in the order they
// are drawn. Worked out once, it saves every pass the rest: a face at 100 % sees a few thousand
// triangles of a hundred thousand.

#include "render/driver/gl.h"
#include "render/light/lighting.h"
#include "render/passes/coarse_triangles.h"
#include "render/passes/crop_rect.h"
#include "render/studio/stage_on_gpu.h"

#include "scene/camera_view.h"

#include <cstdint>
#include <functional>
#include <vector>

namespace backrow::render {

struct CropTriangles {
    Buffer indices;
    std::vector<std::uint32_t> corners;  ///< The same on this side.
    std::vector<Run> people;             ///< First, since they hide most.
    std::vector<Run> surroundings;
    std::vector<Run> textured;
    Run highlights;
};

/// Which parts are drawn; empty for all of them.
using PartChoice = std::function<bool(const DrawnPart& part)>;

/// Triangles lie beside their neighbours in the order of a mesh: so many are kept or left together.
inline constexpr int triangles_together = 16;

/// Leaves out what nothing was seen of: backs of bodies, people behind people. Lights are all kept.
/// seen  of each triangle whether it was
[[nodiscard]] CropTriangles without_unseen(const Gl& gl, const CropTriangles& all,
                                           const std::vector<std::uint8_t>& seen);

/// coarse  where given, what is finer than the crop's texels is drawn by fewer triangles
[[nodiscard]] CropTriangles crop_triangles(const Gl& gl, const StageOnGpu& stage,
                                           const Lighting& lighting, const scene::CameraView& view,
                                           const CropRect& crop, const PartChoice& choice = {},
                                           CoarseTriangles* coarse = nullptr);

}  // namespace backrow::render
