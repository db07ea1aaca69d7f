#pragma once

// The separate pieces of a mesh: bulbs on a string, glints on water.

#include "shapes/mesh.h"

#include <glm/vec3.hpp>

#include <vector>

namespace backrow::shapes {

struct Island {
    glm::vec3 centre_m{0};
    float diameter_m = 0;  ///< Shortest side of its box: how small it can look.
};

/// Triangles that share a vertex belong together.
[[nodiscard]] std::vector<Island> connected_components(const Mesh& mesh);

}  // namespace backrow::shapes
