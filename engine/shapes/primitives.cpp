#include "shapes/primitives.h"

#include "shapes/assemble.h"
#include "shapes/normals.h"

#include <glm/common.hpp>
#include <glm/geometric.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numbers>
#include <utility>

namespace backrow::shapes {
namespace {

// In a convex solid the vertex normals tell which side is out, so corners may come in any order.
void append_outward(Mesh& solid, std::uint32_t a, std::uint32_t b, std::uint32_t c) {
    const Vertex& p = solid.vertices[a];
    const Vertex& q = solid.vertices[b];
    const Vertex& r = solid.vertices[c];
    const glm::vec3 out = p.normal + q.normal + r.normal;
    if (glm::dot(facing(p.position_m, q.position_m, r.position_m), out) < 0)
        std::swap(b, c);
    append_triangle(solid, a, b, c);
}

void append_outward(Mesh& solid, std::uint32_t a, std::uint32_t b, std::uint32_t c,
                    std::uint32_t d) {
    append_outward(solid, a, b, c);
    append_outward(solid, a, c, d);
}

Mesh ball_of(std::span<const glm::vec3> directions,
             std::span<const std::array<std::uint32_t, 3>> faces, const glm::vec3& centre_m,
             const glm::vec3& half_extent_m, const glm::vec3& colour) {
    Mesh ball;
    for (const glm::vec3& direction : directions) {
        const glm::vec3 unit = glm::normalize(direction);
        append(ball, {.position_m = centre_m + unit * half_extent_m,
                      .normal = glm::normalize(unit / half_extent_m),
                      .colour = colour});
    }
    for (const auto& face : faces)
        append_outward(ball, face[0], face[1], face[2]);
    return ball;
}

}  // namespace

Mesh bevelled_box(const glm::vec3& low_m, const glm::vec3& high_m, float bevel_m,
                  const glm::vec3& colour) {
    const glm::vec3 size_m = high_m - low_m;
    const float bevel = std::min({bevel_m, size_m.x / 3, size_m.y / 3, size_m.z / 3});

    // Each of the eight corners is three vertices, one on each face that meets there. A corner is a
    // number whose bit per axis says low or high.
    Mesh box;
    for (int axis = 0; axis < 3; ++axis) {
        for (unsigned corner = 0; corner < 8; ++corner) {
            glm::vec3 position_m{0};
            glm::vec3 normal{0};
            for (int i = 0; i < 3; ++i) {
                const bool is_high = (corner >> i & 1U) != 0;
                const float inset = i == axis ? 0.0F : bevel;
                position_m[i] = is_high ? high_m[i] - inset : low_m[i] + inset;
                if (i == axis)
                    normal[i] = is_high ? 1.0F : -1.0F;
            }
            append(box, {.position_m = position_m, .normal = normal, .colour = colour});
        }
    }
    const auto at = [](unsigned axis, unsigned corner) { return axis * 8 + corner; };

    for (unsigned axis = 0; axis < 3; ++axis) {
        const unsigned u = 1U << (axis + 1) % 3;
        const unsigned v = 1U << (axis + 2) % 3;
        for (const unsigned side : {0U, 1U << axis}) {
            append_outward(box, at(axis, side), at(axis, side | u), at(axis, side | u | v),
                           at(axis, side | v));
        }
        // The four edges along this axis, between the faces of the other two.
        const unsigned other = (axis + 1) % 3;
        const unsigned another = (axis + 2) % 3;
        for (const unsigned edge : {0U, u, v, u | v}) {
            const unsigned end = edge | 1U << axis;
            append_outward(box, at(other, edge), at(other, end), at(another, end),
                           at(another, edge));
        }
    }
    for (unsigned corner = 0; corner < 8; ++corner) {
        append_outward(box, at(0, corner), at(1, corner), at(2, corner));
    }
    return box;
}

Mesh icosahedron(const glm::vec3& centre_m, float radius_m, const glm::vec3& colour) {
    // Corners on three golden rectangles that stand at right angles to each other.
    constexpr float g = std::numbers::phi_v<float>;
    static constexpr std::array<glm::vec3, 12> corners{{{-1, g, 0},
                                                        {1, g, 0},
                                                        {-1, -g, 0},
                                                        {1, -g, 0},
                                                        {0, -1, g},
                                                        {0, 1, g},
                                                        {0, -1, -g},
                                                        {0, 1, -g},
                                                        {g, 0, -1},
                                                        {g, 0, 1},
                                                        {-g, 0, -1},
                                                        {-g, 0, 1}}};
    static constexpr std::array<std::array<std::uint32_t, 3>, 20> faces{
        {{0, 11, 5},  {0, 5, 1},  {0, 1, 7},  {0, 7, 10}, {0, 10, 11}, {1, 5, 9}, {5, 11, 4},
         {11, 10, 2}, {10, 7, 6}, {7, 1, 8},  {3, 9, 4},  {3, 4, 2},   {3, 2, 6}, {3, 6, 8},
         {3, 8, 9},   {4, 9, 5},  {2, 4, 11}, {6, 2, 10}, {8, 6, 7},   {9, 8, 1}}};
    return ball_of(corners, faces, centre_m, glm::vec3{radius_m}, colour);
}

Mesh octahedron(const glm::vec3& centre_m, const glm::vec3& half_extent_m,
                const glm::vec3& colour) {
    static constexpr std::array<glm::vec3, 6> corners{
        {{1, 0, 0}, {-1, 0, 0}, {0, 1, 0}, {0, -1, 0}, {0, 0, 1}, {0, 0, -1}}};
    static constexpr std::array<std::array<std::uint32_t, 3>, 8> faces{
        {{0, 2, 4}, {0, 2, 5}, {0, 3, 4}, {0, 3, 5}, {1, 2, 4}, {1, 2, 5}, {1, 3, 4}, {1, 3, 5}}};
    return ball_of(corners, faces, centre_m, half_extent_m, colour);
}

Mesh rounded(const Mesh& ball, const glm::vec3& centre_m) {
    Mesh finer;
    finer.vertices = ball.vertices;
    std::map<std::pair<std::uint32_t, std::uint32_t>, std::uint32_t> middles;
    const auto middle = [&](std::uint32_t a, std::uint32_t b) {
        const auto [found, is_new] = middles.try_emplace(std::minmax(a, b), 0);
        if (is_new) {
            const Vertex& from = ball.vertices[a];
            const Vertex& to = ball.vertices[b];
            Vertex between = from;
            between.normal = glm::normalize(from.normal + to.normal);
            const float radius_m =
                (glm::length(from.position_m - centre_m) + glm::length(to.position_m - centre_m)) /
                2;
            between.position_m =
                centre_m +
                radius_m * glm::normalize(from.position_m + to.position_m - 2.0F * centre_m);
            between.colour = (from.colour + to.colour) / 2.0F;
            found->second = append(finer, between);
        }
        return found->second;
    };
    for (std::size_t i = 0; i + 2 < ball.indices.size(); i += 3) {
        const std::uint32_t a = ball.indices[i];
        const std::uint32_t b = ball.indices[i + 1];
        const std::uint32_t c = ball.indices[i + 2];
        const std::uint32_t ab = middle(a, b);
        const std::uint32_t bc = middle(b, c);
        const std::uint32_t ca = middle(c, a);
        append_triangle(finer, a, ab, ca);
        append_triangle(finer, ab, b, bc);
        append_triangle(finer, ca, bc, c);
        append_triangle(finer, ab, bc, ca);
    }
    return finer;
}

Mesh tube(std::span<const Ring> rings, int sides, const glm::vec3& colour) {
    Mesh pipe;
    const auto count = static_cast<std::uint32_t>(sides);
    // One frame carried along the tube, turned only as far as the tube bends, so it never twists.
    glm::vec3 sideways{0};
    for (std::size_t i = 0; i < rings.size(); ++i) {
        const glm::vec3 along = glm::normalize(rings[std::min(i + 1, rings.size() - 1)].centre_m -
                                               rings[i == 0 ? 0 : i - 1].centre_m);
        if (i == 0)
            sideways = std::abs(along.x) < 0.7F ? glm::vec3{1, 0, 0} : glm::vec3{0, 0, 1};
        sideways = glm::normalize(sideways - along * glm::dot(along, sideways));
        const glm::vec3 other = glm::cross(along, sideways);
        for (int side = 0; side < sides; ++side) {
            const float turn = 2 * std::numbers::pi_v<float> * static_cast<float>(side) /
                               static_cast<float>(sides);
            const glm::vec3 out = std::cos(turn) * sideways + std::sin(turn) * other;
            append(pipe, {.position_m = rings[i].centre_m + rings[i].radius_m * out,
                          .normal = out,
                          .colour = colour});
        }
    }
    const auto last = static_cast<std::uint32_t>(rings.size() - 1) * count;
    for (std::uint32_t ring = 0; ring < last; ring += count) {
        for (std::uint32_t side = 0; side < count; ++side) {
            const std::uint32_t next = (side + 1) % count;
            append_triangle(pipe, ring + side, ring + next, ring + count + next);
            append_triangle(pipe, ring + side, ring + count + next, ring + count + side);
        }
    }
    for (std::uint32_t side = 1; side + 1 < count; ++side) {
        append_triangle(pipe, 0, side + 1, side);
        append_triangle(pipe, last, last + side, last + side + 1);
    }
    return pipe;
}

}  // namespace backrow::shapes
