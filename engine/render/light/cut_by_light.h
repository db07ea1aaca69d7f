#pragma once

// Coarse surfaces cut finer where their light is not straight between their vertices: along the
// edges of shadows. Light at the vertices is then light as it falls, and passes need to ask nobody.

#include "render/light/light_views.h"
#include "render/studio/gpu_vertex.h"

#include <glm/vec4.hpp>

#include <array>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <span>
#include <vector>

namespace backrow::render {

/// Triangles of some parts of a stage, and the light of each vertex.
struct LitMesh {
    struct Triangle {
        std::array<std::uint32_t, 3> corners{};
        std::size_t part = 0;  ///< Whatever the caller numbers them by; goes on to what is cut.
    };
    std::vector<GpuVertex> vertices;
    std::vector<Triangle> triangles;
    std::vector<glm::vec4> light;  ///< Of each vertex, as shaders/vertex_light.comp has it.
};

/// The light of each of these vertices.
using LightAt = std::function<std::vector<glm::vec4>(std::span<const GpuVertex>)>;

/// Turns the normals of triangles that show the lens their back (clockwise, seen from it), so that
/// they are lit on the side that it sees.
void face_the_lens(LitMesh& mesh, const glm::vec3& lens_m);

/// Whether a triangle is large enough, for where it lies, that cut_where_light_bends() may cut it.
[[nodiscard]] bool may_be_cut(const LitMesh::Triangle& triangle,
                              const std::vector<GpuVertex>& vertices, const Ball& ball);

/// Finds the light of all vertices and cuts edges in the middle, again and again: those too long to
/// find a shadow by, and those on which the light in the middle is not that between their ends.
/// Each edge is judged by itself and alike from every side, so no gap opens between triangles that
/// met before. In the ball, where shadows are, edges end about as long as a texel of the sun's
/// maps; the further outside, the longer. Stops before there are more than most_cut_vertices.
void cut_where_light_bends(LitMesh& mesh, const Ball& ball, const LightAt& light_at);

inline constexpr std::size_t most_cut_vertices = 400'000;

}  // namespace backrow::render
