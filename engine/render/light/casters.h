#pragma once

// What throws shadows on the people, no finer than shadow maps can show.

#include "render/driver/gl.h"
#include "render/light/light_views.h"
#include "render/studio/stage_on_gpu.h"

#include <glm/vec3.hpp>

namespace backrow::render {

struct Casters {
    Buffer indices;  ///< Three a triangle, into the stage's vertices.
    int index_count = 0;

    /// With the stage's layout current, and whatever program is.
    void draw() const;
};

/// The triangles that may shade something in the ball. Ground and sky, far larger than it, do not.
///
/// towards_light  unit, of a light far away: what stands between it and the ball. 0 where light
///                comes from many sides: what lies within two radii
/// cell_m         of vertices in one cube this wide one stands for all, and what shrinks to nothing
///                is left out: of eight triangles of a body in a map of the sky one remains
[[nodiscard]] Casters casters_in(const Gl& gl, const StageOnGpu& stage, const Ball& ball,
                                 const glm::dvec3& towards_light, double cell_m);

}  // namespace backrow::render
