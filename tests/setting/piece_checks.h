#pragma once

// What every piece of the surroundings must be, checked from its triangles alone.

#include "setting/surroundings.h"

#include "shapes/assemble.h"
#include "shapes/bounds.h"

#include <glm/geometric.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <map>
#include <numeric>
#include <utility>
#include <vector>

namespace backrow::setting {

inline std::size_t triangles_of(const std::vector<Piece>& pieces) {
    std::size_t count = 0;
    for (const Piece& piece : pieces)
        count += shapes::triangle_count(piece.mesh);
    return count;
}

/// All pieces in one mesh.
inline shapes::Mesh together(const std::vector<Piece>& pieces) {
    shapes::Mesh all;
    for (const Piece& piece : pieces)
        shapes::append(all, piece.mesh);
    return all;
}

inline bool is_share(float x) {
    return x >= 0 && x <= 1;
}

/// Finite places, unit normals, colours and ambient_visibility within 0 … 1, no index past the end.
/// Tolerance: normals are floats, so their length is off by a few times 2⁻²³.
inline bool is_sound(const shapes::Mesh& mesh) {
    const bool are_vertices_sound =
        std::all_of(mesh.vertices.begin(), mesh.vertices.end(), [](const shapes::Vertex& vertex) {
            const glm::vec3& at = vertex.position_m;
            const glm::vec3& colour = vertex.colour;
            return std::isfinite(at.x) && std::isfinite(at.y) && std::isfinite(at.z) &&
                   std::abs(glm::length(glm::dvec3{vertex.normal}) - 1) < 1e-6 &&
                   is_share(colour.r) && is_share(colour.g) && is_share(colour.b) &&
                   is_share(vertex.ambient_visibility);
        });
    const bool are_indices_sound =
        std::all_of(mesh.indices.begin(), mesh.indices.end(),
                    [&](std::uint32_t index) { return index < mesh.vertices.size(); });
    return are_vertices_sound && are_indices_sound && mesh.indices.size() % 3 == 0;
}

/// The parts of a mesh that share no vertex, each a mesh of its own.
inline std::vector<shapes::Mesh> separate(const shapes::Mesh& mesh) {
    std::vector<std::uint32_t> parent(mesh.vertices.size());
    std::iota(parent.begin(), parent.end(), 0U);
    const auto root = [&](std::uint32_t v) {
        while (parent[v] != v)
            v = parent[v] = parent[parent[v]];
        return v;
    };
    for (std::size_t i = 0; i + 2 < mesh.indices.size(); i += 3) {
        parent[root(mesh.indices[i + 1])] = root(mesh.indices[i]);
        parent[root(mesh.indices[i + 2])] = root(mesh.indices[i]);
    }
    std::map<std::uint32_t, shapes::Mesh> parts;
    std::vector<std::uint32_t> place(mesh.vertices.size());
    for (std::uint32_t v = 0; v < mesh.vertices.size(); ++v) {
        place[v] = shapes::append(parts[root(v)], mesh.vertices[v]);
    }
    for (std::size_t i = 0; i + 2 < mesh.indices.size(); i += 3) {
        shapes::append_triangle(parts[root(mesh.indices[i])], place[mesh.indices[i]],
                                place[mesh.indices[i + 1]], place[mesh.indices[i + 2]]);
    }
    std::vector<shapes::Mesh> meshes;
    for (auto& [unused, part] : parts)
        meshes.push_back(std::move(part));
    return meshes;
}

/// Closed, every edge walked once each way, and no vertex above the plane of any triangle by more
/// than rounding_m: a convex solid, counter-clockwise outside.
inline bool is_convex_solid(const shapes::Mesh& mesh, double rounding_m) {
    std::map<std::pair<std::uint32_t, std::uint32_t>, int> walked;
    for (std::size_t i = 0; i + 2 < mesh.indices.size(); i += 3) {
        for (std::size_t side = 0; side < 3; ++side) {
            ++walked[{mesh.indices[i + side], mesh.indices[i + (side + 1) % 3]}];
        }
        const glm::dvec3 a{mesh.vertices[mesh.indices[i]].position_m};
        const glm::dvec3 b{mesh.vertices[mesh.indices[i + 1]].position_m};
        const glm::dvec3 c{mesh.vertices[mesh.indices[i + 2]].position_m};
        const glm::dvec3 normal = glm::normalize(glm::cross(b - a, c - a));
        for (const shapes::Vertex& vertex : mesh.vertices) {
            if (glm::dot(glm::dvec3{vertex.position_m} - a, normal) > rounding_m)
                return false;
        }
    }
    return !walked.empty() && std::all_of(walked.begin(), walked.end(), [&](const auto& edge) {
        const auto back = walked.find({edge.first.second, edge.first.first});
        return edge.second == 1 && back != walked.end() && back->second == 1;
    });
}

/// The share of points, spread over a rectangle, that some triangle covers when all are pushed flat
/// along an axis (0 x, 1 y, 2 z). The two other axes, in order, span the rectangle.
inline double covered_share(const shapes::Mesh& mesh, int along, const glm::dvec2& low_m,
                            const glm::dvec2& high_m, int points_a_side) {
    const int u = along == 0 ? 1 : 0;
    const int v = along == 2 ? 1 : 2;
    const auto side = static_cast<std::size_t>(points_a_side);
    const glm::dvec2 step_m = (high_m - low_m) / static_cast<double>(points_a_side);
    std::vector<bool> is_covered(side * side, false);
    const auto flat = [&](std::uint32_t index) {
        const glm::vec3& at = mesh.vertices[index].position_m;
        // In steps from the first point, which lies half a step inside.
        return (glm::dvec2{at[u], at[v]} - low_m) / step_m - 0.5;
    };
    const auto turn = [](const glm::dvec2& a, const glm::dvec2& b, const glm::dvec2& p) {
        return (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x);
    };
    const auto within = [&](double x) {
        return static_cast<std::size_t>(std::clamp(x, 0.0, static_cast<double>(points_a_side)));
    };
    for (std::size_t i = 0; i + 2 < mesh.indices.size(); i += 3) {
        const glm::dvec2 a = flat(mesh.indices[i]);
        const glm::dvec2 b = flat(mesh.indices[i + 1]);
        const glm::dvec2 c = flat(mesh.indices[i + 2]);
        const std::size_t to_x = within(std::floor(std::max({a.x, b.x, c.x})) + 1);
        const std::size_t to_y = within(std::floor(std::max({a.y, b.y, c.y})) + 1);
        for (std::size_t y = within(std::ceil(std::min({a.y, b.y, c.y}))); y < to_y; ++y) {
            for (std::size_t x = within(std::ceil(std::min({a.x, b.x, c.x}))); x < to_x; ++x) {
                const glm::dvec2 p{x, y};
                const double ab = turn(a, b, p);
                const double bc = turn(b, c, p);
                const double ca = turn(c, a, p);
                if ((ab >= 0 && bc >= 0 && ca >= 0) || (ab <= 0 && bc <= 0 && ca <= 0)) {
                    is_covered[y * side + x] = true;
                }
            }
        }
    }
    return static_cast<double>(std::count(is_covered.begin(), is_covered.end(), true)) /
           static_cast<double>(is_covered.size());
}

}  // namespace backrow::setting
