#pragma once

// Bodies that are given by a number at every place.

#include <glm/vec3.hpp>

#include <functional>

namespace backrow::shapes {

/// Roughly the distance to a surface, negative inside; any units.
using Field = std::function<double(const glm::dvec3&)>;

}  // namespace backrow::shapes
