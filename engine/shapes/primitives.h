#pragma once

// Simple closed solids. All are convex or tubes, closed (every edge is shared by two triangles) and
// counter-clockwise seen from outside.

#include "shapes/mesh.h"

#include <span>

namespace backrow::shapes {

/// An upright box with rounded-looking edges: flat faces, 45° bevels bevel_m wide along each edge
/// over which the normal turns from one face to the next. Its extents are exactly low … high.
/// low_m < high_m on each axis; bevel_m > 0, and at most a third of the shortest side is taken.
[[nodiscard]] Mesh bevelled_box(const glm::vec3& low_m, const glm::vec3& high_m, float bevel_m,
                                const glm::vec3& colour);

/// Twenty triangles round a ball; the corners lie on it, so the solid is a little smaller.
[[nodiscard]] Mesh icosahedron(const glm::vec3& centre_m, float radius_m, const glm::vec3& colour);

/// Eight triangles with corners half_extent_m from the centre along each axis.
[[nodiscard]] Mesh octahedron(const glm::vec3& centre_m, const glm::vec3& half_extent_m,
                              const glm::vec3& colour);

/// Each triangle split in four with the new corners pushed out to the ball: rounder, still closed.
[[nodiscard]] Mesh rounded(const Mesh& ball, const glm::vec3& centre_m);

/// A place along a tube.
struct Ring {
    glm::vec3 centre_m{0};
    float radius_m = 0;  ///< > 0
};

/// A tube through the rings, closed at both ends. At least two rings, no two neighbours in the same
/// place; sides ≥ 3.
[[nodiscard]] Mesh tube(std::span<const Ring> rings, int sides, const glm::vec3& colour);

}  // namespace backrow::shapes
