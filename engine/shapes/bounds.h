#pragma once

// The upright box round a mesh.

#include "shapes/mesh.h"

#include <optional>

namespace backrow::shapes {

struct Bounds {
    glm::vec3 low_m{0};
    glm::vec3 high_m{0};
};

/// Nothing where the mesh has no vertices.
[[nodiscard]] std::optional<Bounds> bounds(const Mesh& mesh) noexcept;

}  // namespace backrow::shapes
