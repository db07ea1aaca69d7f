#include "shapes/normals.h"

#include <glm/geometric.hpp>

#include <limits>

namespace backrow::shapes {

glm::vec3 facing(const glm::vec3& a, const glm::vec3& b, const glm::vec3& c) noexcept {
    return glm::cross(b - a, c - a);
}

void smooth_normals(Mesh& mesh) {
    std::vector<glm::vec3> sums(mesh.vertices.size(), glm::vec3{0});
    for (std::size_t i = 0; i + 2 < mesh.indices.size(); i += 3) {
        const std::uint32_t a = mesh.indices[i];
        const std::uint32_t b = mesh.indices[i + 1];
        const std::uint32_t c = mesh.indices[i + 2];
        const glm::vec3 twice_area = facing(
            mesh.vertices[a].position_m, mesh.vertices[b].position_m, mesh.vertices[c].position_m);
        sums[a] += twice_area;
        sums[b] += twice_area;
        sums[c] += twice_area;
    }
    for (std::size_t i = 0; i < sums.size(); ++i) {
        const float length = glm::length(sums[i]);
        if (length > std::numeric_limits<float>::min())
            mesh.vertices[i].normal = sums[i] / length;
    }
}

}  // namespace backrow::shapes
