#pragma once

// What makes a mesh a solid, checked from its triangles alone.

#include "shapes/mesh.h"

#include <glm/geometric.hpp>

#include <algorithm>
#include <map>
#include <utility>

namespace backrow::shapes {

/// Every edge is walked once in each direction, so there is no hole and no triangle faces wrong
/// beside its neighbours.
inline bool is_closed(const Mesh& mesh) {
    std::map<std::pair<std::uint32_t, std::uint32_t>, int> walked;
    for (std::size_t i = 0; i + 2 < mesh.indices.size(); i += 3) {
        for (std::size_t side = 0; side < 3; ++side) {
            ++walked[{mesh.indices[i + side], mesh.indices[i + (side + 1) % 3]}];
        }
    }
    return !walked.empty() && std::all_of(walked.begin(), walked.end(), [&](const auto& edge) {
        const auto back = walked.find({edge.first.second, edge.first.first});
        return edge.second == 1 && back != walked.end() && back->second == 1;
    });
}

/// Six times the volume by the divergence theorem; positive where counter-clockwise is outside.
inline double volume_m3(const Mesh& mesh) {
    double six_volumes = 0;
    for (std::size_t i = 0; i + 2 < mesh.indices.size(); i += 3) {
        const glm::dvec3 a{mesh.vertices[mesh.indices[i]].position_m};
        const glm::dvec3 b{mesh.vertices[mesh.indices[i + 1]].position_m};
        const glm::dvec3 c{mesh.vertices[mesh.indices[i + 2]].position_m};
        six_volumes += glm::dot(a, glm::cross(b, c));
    }
    return six_volumes / 6;
}

/// Largest height of a vertex above the plane of any triangle, metres: zero but for rounding where
/// the solid is convex and faces outside.
inline double bulge_m(const Mesh& mesh) {
    double most_m = 0;
    for (std::size_t i = 0; i + 2 < mesh.indices.size(); i += 3) {
        const glm::dvec3 a{mesh.vertices[mesh.indices[i]].position_m};
        const glm::dvec3 b{mesh.vertices[mesh.indices[i + 1]].position_m};
        const glm::dvec3 c{mesh.vertices[mesh.indices[i + 2]].position_m};
        const glm::dvec3 normal = glm::normalize(glm::cross(b - a, c - a));
        for (const Vertex& vertex : mesh.vertices) {
            most_m = std::max(most_m, glm::dot(glm::dvec3{vertex.position_m} - a, normal));
        }
    }
    return most_m;
}

inline double worst_normal_length_error(const Mesh& mesh) {
    double worst = 0;
    for (const Vertex& vertex : mesh.vertices) {
        worst = std::max(worst, std::abs(glm::length(glm::dvec3{vertex.normal}) - 1));
    }
    return worst;
}

}  // namespace backrow::shapes
