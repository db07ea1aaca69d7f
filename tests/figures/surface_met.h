#pragma once

// What somebody who looks along −z at a mesh sees first.

#include "shapes/mesh.h"

#include <glm/vec3.hpp>

#include <cmath>
#include <cstddef>

namespace backrow::figures {

/// The first surface met along −z in front of a point: how far before it, and its colour.
struct Met {
    double before_m = -1e9;
    glm::vec3 colour{0};
};

/// Nothing met: far behind the point.
inline Met first_met(const shapes::Mesh& mesh, const glm::dvec3& point) {
    Met met;
    for (std::size_t i = 0; i < mesh.indices.size(); i += 3) {
        glm::dvec3 p[3];
        for (std::size_t k = 0; k < 3; ++k)
            p[k] = glm::dvec3{mesh.vertices[mesh.indices[i + k]].position_m} - point;
        const auto cross = [](const glm::dvec3& a, const glm::dvec3& b) {
            return a.x * b.y - a.y * b.x;
        };
        const double area = cross(p[1] - p[0], p[2] - p[0]);
        const double u = cross(p[1], p[2]) / area, v = cross(p[2], p[0]) / area;
        if (std::abs(area) < 1e-14 || u < 0 || v < 0 || u + v > 1)
            continue;
        const double z = u * p[0].z + v * p[1].z + (1 - u - v) * p[2].z;
        if (z > met.before_m)
            met = {z, mesh.vertices[mesh.indices[i]].colour};
    }
    return met;
}

}  // namespace backrow::figures
