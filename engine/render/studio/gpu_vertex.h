#pragma once

// A vertex as the shaders read it.

#include <glm/vec2.hpp>
#include <glm/vec3.hpp>

#include <array>
#include <cstdint>

namespace backrow::render {

/// shaders/vertex_light.comp takes it apart word by word.
struct GpuVertex {
    glm::vec3 position_m;                                        ///< Engine space.
    std::array<std::int16_t, 4> normal;                          ///< Signed, normalised.
    std::array<std::uint16_t, 4> colour_and_ambient_visibility;  ///< Unsigned, normalised.
    glm::vec2 uv;
    std::uint16_t material;
    std::uint16_t face;
};
static_assert(sizeof(GpuVertex) == 40);

/// What the vertices of a part share, as shaders/material.glsl reads it.
struct GpuMaterial {
    std::array<float, 4> base_colour;
    std::array<float, 4> emission;
    std::array<float, 4> answer;
    bool operator==(const GpuMaterial&) const = default;
};

}  // namespace backrow::render
