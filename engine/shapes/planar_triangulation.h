#pragma once

// Delaunay triangles of points in a plane.

#include <glm/vec2.hpp>

#include <array>
#include <cstdint>
#include <vector>

namespace backrow::shapes {

/// Triangles over the convex hull of the points, counter-clockwise, by incremental insertion in
/// order of x. Points must differ from each other. Source: [BOWYER] Bowyer (1981), Watson (1981).
[[nodiscard]] std::vector<std::array<std::uint32_t, 3>>
planar_triangulation(const std::vector<glm::dvec2>& points);

}  // namespace backrow::shapes
