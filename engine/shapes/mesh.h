#pragma once

// Triangles as plain data: what figures and surroundings are made of, before anything draws them.
//
// Engine space: right-handed, metres, +x across (picture right), +y up, −z back (away from the
// camera). Triangles are counter-clockwise seen from outside.

#include <glm/vec2.hpp>
#include <glm/vec3.hpp>

#include <cstdint>
#include <vector>

namespace backrow::shapes {

struct Vertex {
    glm::vec3 position_m{0};
    glm::vec3 normal{0, 1, 0};     ///< Unit length.
    glm::vec3 colour{1};           ///< Linear base colour, 0 … 1.
    float ambient_visibility = 1;  ///< Share of the sky this point could see of its own, 0 … 1.
    glm::vec2 uv{0};               ///< Only where the material has a texture.
};

struct Mesh {
    std::vector<Vertex> vertices;
    std::vector<std::uint32_t> indices;  ///< Three a triangle.
};

/// How a surface answers light. Colours are linear.
struct Material {
    glm::vec3 base_colour{1};
    glm::vec3 emission{0};  ///< May exceed 1: a lamp, a glint.
    float gloss = 0;        ///< 0 matt … 1 wet: strength of the highlight of the sun.
    bool lit = true;        ///< false: shows its colour as it is (sky, far photographs).
    int texture = -1;       ///< Index into the stage's textures, −1 for none.
};

}  // namespace backrow::shapes
