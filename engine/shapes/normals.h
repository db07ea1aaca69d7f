#pragma once

// Which way surfaces face.

#include "shapes/mesh.h"

namespace backrow::shapes {

/// Cross product of two edges: points outside a counter-clockwise triangle, twice its area long.
[[nodiscard]] glm::vec3 facing(const glm::vec3& a, const glm::vec3& b, const glm::vec3& c) noexcept;

/// Gives every vertex the mean normal of the triangles that share it, weighted by their area.
/// Vertices of no triangle, and of triangles without area, keep the normal they have.
void smooth_normals(Mesh& mesh);

}  // namespace backrow::shapes
