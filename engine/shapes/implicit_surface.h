#pragma once

// From a field that is negative inside a body to triangles on its surface.

#include "shapes/mesh.h"

#include <glm/vec3.hpp>

#include <functional>

namespace backrow::shapes {

/// Roughly the distance to a surface, negative inside; any units.
using Field = std::function<double(const glm::dvec3&)>;

/// A box and the size of its cells, which need not be cubes: long cells for long limbs.
struct Cells {
    glm::dvec3 least{0};
    glm::dvec3 most{0};
    glm::dvec3 size{1};
};

/// Surface nets: one vertex in each cell that the surface crosses, at the mean of the crossings of
/// its edges, moved onto the surface along the gradient, which is also its normal. The body must
/// lie inside the box. Only position and normal are set. Source: [GIBSON] Gibson, Constrained
/// Elastic Surface Nets (1998); a step along the gradient stands for its relaxation.
[[nodiscard]] Mesh surface_nets(const Field& field, const Cells& cells);

/// The unit gradient, from differences over ±step.
[[nodiscard]] glm::dvec3 gradient_direction(const Field& field, const glm::dvec3& at, double step);

}  // namespace backrow::shapes
