#pragma once

// Putting meshes together out of corners, triangles and other meshes.

#include "shapes/mesh.h"

#include <glm/mat4x4.hpp>

#include <array>
#include <cstddef>

namespace backrow::shapes {

/// How many triangles a mesh holds.
[[nodiscard]] inline std::size_t triangle_count(const Mesh& mesh) noexcept {
    return mesh.indices.size() / 3;
}

/// Adds a vertex and returns its index.
std::uint32_t append(Mesh& mesh, const Vertex& vertex);

/// Adds all triangles of another mesh.
void append(Mesh& mesh, const Mesh& other);

/// Adds one triangle between vertices that are there already.
void append_triangle(Mesh& mesh, std::uint32_t a, std::uint32_t b, std::uint32_t c);

/// Adds four vertices, counter-clockwise seen from outside, and two triangles between them.
void append_quad(Mesh& mesh, const std::array<Vertex, 4>& corners);

/// The mesh elsewhere. Normals go with the inverse transpose and stay unit length; a mirroring
/// matrix turns the triangles over, so that counter-clockwise is still outside.
[[nodiscard]] Mesh transformed(const Mesh& mesh, const glm::dmat4& to_from);

}  // namespace backrow::shapes
