#include "shapes/bounds.h"

#include <glm/common.hpp>

namespace backrow::shapes {

std::optional<Bounds> bounds(const Mesh& mesh) noexcept {
    if (mesh.vertices.empty())
        return std::nullopt;
    Bounds box{mesh.vertices.front().position_m, mesh.vertices.front().position_m};
    for (const Vertex& vertex : mesh.vertices) {
        box.low_m = glm::min(box.low_m, vertex.position_m);
        box.high_m = glm::max(box.high_m, vertex.position_m);
    }
    return box;
}

}  // namespace backrow::shapes
