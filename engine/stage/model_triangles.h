#pragma once

// The triangles of an imported model, out of the tree of nodes that a file keeps them in.

#include "shapes/mesh.h"

#include <assimp/scene.h>

#include <glm/mat4x4.hpp>

#include <cstddef>
#include <vector>

namespace backrow::stage {

/// One mesh where one node puts it.
struct Instance {
    const aiMesh* mesh;
    glm::dmat4 model_from_mesh;
};

/// Every mesh of every node, in the order of the file. Throws Refusal for more than most_triangles.
[[nodiscard]] std::vector<Instance> instances_of(const aiScene& scene, std::size_t most_triangles);

/// How to read the vertices of a mesh.
struct VertexReading {
    unsigned uv_channel = 0;
    bool colours_are_linear = true;  ///< false: sRGB
    double farthest = 0;             ///< A vertex farther from the model's origin is refused.
};

/// Adds the triangles of an instance to a mesh, in the model's space. Points, lines and triangles
/// without area are left out, mirrored ones turned right side out, broken normals replaced by those
/// of their triangle. Throws Refusal for a number that is none or too large.
void bake(const Instance& instance, const VertexReading& reading, shapes::Mesh& into);

}  // namespace backrow::stage
