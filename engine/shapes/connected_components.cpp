#include "shapes/connected_components.h"

#include <glm/common.hpp>

#include <algorithm>
#include <limits>
#include <numeric>

namespace backrow::shapes {
namespace {

std::uint32_t root_of(std::uint32_t vertex, std::vector<std::uint32_t>& parent) {
    while (parent[vertex] != vertex) {
        parent[vertex] = parent[parent[vertex]];
        vertex = parent[vertex];
    }
    return vertex;
}

}  // namespace

std::vector<Island> connected_components(const Mesh& mesh) {
    std::vector<std::uint32_t> parent(mesh.vertices.size());
    std::iota(parent.begin(), parent.end(), 0U);
    for (std::size_t i = 0; i + 2 < mesh.indices.size(); i += 3) {
        const std::uint32_t root = root_of(mesh.indices[i], parent);
        parent[root_of(mesh.indices[i + 1], parent)] = root;
        parent[root_of(mesh.indices[i + 2], parent)] = root;
    }

    struct Box {
        glm::vec3 least{std::numeric_limits<float>::infinity()};
        glm::vec3 most{-std::numeric_limits<float>::infinity()};
    };
    std::vector<Box> boxes(mesh.vertices.size());
    for (const std::uint32_t vertex : mesh.indices) {
        Box& box = boxes[root_of(vertex, parent)];
        box.least = glm::min(box.least, mesh.vertices[vertex].position_m);
        box.most = glm::max(box.most, mesh.vertices[vertex].position_m);
    }
    std::vector<Island> found;
    for (const Box& box : boxes)
        if (box.least.x <= box.most.x) {
            const glm::vec3 size = box.most - box.least;
            found.push_back({(box.least + box.most) * 0.5f, std::min({size.x, size.y, size.z})});
        }
    return found;
}

}  // namespace backrow::shapes
