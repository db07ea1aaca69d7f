#include "shapes/assemble.h"

#include <glm/geometric.hpp>
#include <glm/matrix.hpp>

#include <utility>

namespace backrow::shapes {

std::uint32_t append(Mesh& mesh, const Vertex& vertex) {
    mesh.vertices.push_back(vertex);
    return static_cast<std::uint32_t>(mesh.vertices.size() - 1);
}

void append(Mesh& mesh, const Mesh& other) {
    const auto first = static_cast<std::uint32_t>(mesh.vertices.size());
    mesh.vertices.insert(mesh.vertices.end(), other.vertices.begin(), other.vertices.end());
    mesh.indices.reserve(mesh.indices.size() + other.indices.size());
    for (const std::uint32_t index : other.indices)
        mesh.indices.push_back(first + index);
}

void append_triangle(Mesh& mesh, std::uint32_t a, std::uint32_t b, std::uint32_t c) {
    mesh.indices.push_back(a);
    mesh.indices.push_back(b);
    mesh.indices.push_back(c);
}

void append_quad(Mesh& mesh, const std::array<Vertex, 4>& corners) {
    const auto first = static_cast<std::uint32_t>(mesh.vertices.size());
    mesh.vertices.insert(mesh.vertices.end(), corners.begin(), corners.end());
    append_triangle(mesh, first, first + 1, first + 2);
    append_triangle(mesh, first, first + 2, first + 3);
}

Mesh transformed(const Mesh& mesh, const glm::dmat4& to_from) {
    const glm::dmat3 linear{to_from};
    const glm::dmat3 of_normals = glm::transpose(glm::inverse(linear));
    Mesh moved = mesh;
    for (Vertex& vertex : moved.vertices) {
        vertex.position_m = glm::vec3{to_from * glm::dvec4{glm::dvec3{vertex.position_m}, 1.0}};
        vertex.normal = glm::vec3{glm::normalize(of_normals * glm::dvec3{vertex.normal})};
    }
    if (glm::determinant(linear) < 0) {
        for (std::size_t i = 0; i + 2 < moved.indices.size(); i += 3) {
            std::swap(moved.indices[i + 1], moved.indices[i + 2]);
        }
    }
    return moved;
}

}  // namespace backrow::shapes
