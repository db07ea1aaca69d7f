#include "setting/ground/laid.h"

#include "setting/backdrops/lattice.h"
#include "setting/chance.h"
#include "setting/ground/grounds.h"
#include "setting/piece_lists.h"

#include <glm/common.hpp>

#include <algorithm>
#include <cmath>

namespace backrow::setting {
namespace {

glm::vec3 mean_colour(const Laying& laying) {
    return glm::mix((laying.light + laying.dark) / 2.0F, laying.joint, laying.joint_share);
}

// 1 in the middle of the field, 0 at its edge, where it must look like what lies beyond.
float fade_at(const glm::vec2& at, const glm::vec2& low_m, const glm::vec2& high_m) noexcept {
    const glm::vec2 inside = glm::min(at - low_m, high_m - at);
    return smooth_step(0, 5, std::min(inside.x, inside.y));
}

std::vector<float> evenly(float low, float high, float about) {
    const int steps = std::clamp(static_cast<int>(std::lround((high - low) / about)), 1, 24);
    std::vector<float> lines;
    for (int i = 0; i <= steps; ++i) {
        lines.push_back(low + (high - low) * static_cast<float>(i) / static_cast<float>(steps));
    }
    return lines;
}

// The top sheet, and round it a narrow bevel that turns down into the joint.
void append_piece(shapes::Mesh& mesh, const LaidPiece& piece, const Laying& laying,
                  const glm::vec2& low_m, const glm::vec2& high_m) {
    Chance chance{31, piece.key};
    const float tone = chance.unit();
    const glm::vec3 tint{1 + 0.02F * chance.bell(), 1, 1 - 0.02F * chance.bell()};
    const glm::vec2 middle = (piece.low_m + piece.high_m) / 2.0F;
    const bool is_near = glm::length(middle) < laying.near_m;
    const glm::vec3 normal =
        glm::normalize(glm::vec3{piece.lean * chance.between(-1, 1), 1, piece.lean});
    const auto colour_at = [&](float x, float z) {
        const glm::vec2 marking = glm::vec2{x, z} / piece.grain_m + glm::vec2{piece.key * 17.3F, 0};
        const float mark = is_near ? rough_noise(marking, 32) : 0.5F;
        const float share = std::clamp(0.15F + 0.55F * tone + 0.6F * (mark - 0.5F), 0.0F, 1.0F);
        const float fade = fade_at({x, z}, low_m, high_m);
        return glm::mix(mean_colour(laying), glm::mix(laying.light, laying.dark, share) * tint,
                        fade);
    };
    const float bevel = is_near ? laying.bevel_m : 0.0F;
    const auto xs =
        evenly(piece.low_m.x + bevel, piece.high_m.x - bevel, is_near ? piece.grain_m.x : 100.0F);
    const auto zs =
        evenly(piece.low_m.y + bevel, piece.high_m.y - bevel, is_near ? piece.grain_m.y : 100.0F);
    append_sheet(mesh, xs, zs, [&](float x, float z) {
        return shapes::Vertex{.position_m = {x, 0, z}, .normal = normal, .colour = colour_at(x, z)};
    });
    if (!is_near)
        return;

    const auto edge = [&](float x, float z, bool is_low) {
        const glm::vec2 out = glm::sign(glm::vec2{x, z} - middle);
        return shapes::Vertex{
            .position_m = {is_low ? x + out.x * bevel : x, is_low ? -laying.joint_depth_m : 0,
                           is_low ? z + out.y * bevel : z},
            .normal = is_low ? glm::normalize(glm::vec3{out.x, 1, out.y}) : normal,
            .colour = colour_at(x, z) * (is_low ? 0.6F : 1.0F),
            .ambient_visibility = is_low ? 0.4F : 1.0F};
    };
    const std::array<glm::vec2, 4> corners{{{xs.front(), zs.front()},
                                            {xs.front(), zs.back()},
                                            {xs.back(), zs.back()},
                                            {xs.back(), zs.front()}}};
    for (std::size_t i = 0; i < 4; ++i) {
        const glm::vec2 from = corners[i];
        const glm::vec2 to = corners[(i + 1) % 4];
        shapes::append_quad(mesh, {edge(from.x, from.y, true), edge(to.x, to.y, true),
                                   edge(to.x, to.y, false), edge(from.x, from.y, false)});
    }
}

}  // namespace

std::vector<Piece> lay(const std::vector<LaidPiece>& pieces, const Laying& laying,
                       const glm::vec2& low_m, const glm::vec2& high_m) {
    Piece floor;
    floor.material.gloss = laying.gloss;
    for (const LaidPiece& piece : pieces)
        append_piece(floor.mesh, piece, laying, low_m, high_m);

    // What shows between them, under all of the field and a little beyond its edge.
    append_sheet(floor.mesh, evenly(low_m.x - 0.5F, high_m.x + 0.5F, 1),
                 evenly(low_m.y - 0.5F, high_m.y + 0.5F, 1), [&](float x, float z) {
                     const float fade = fade_at({x, z}, low_m, high_m);
                     return shapes::Vertex{.position_m = {x, -laying.joint_depth_m, z},
                                           .colour =
                                               glm::mix(mean_colour(laying), laying.joint, fade),
                                           .ambient_visibility = 1 - 0.6F * fade};
                 });

    // From the field to the horizon.
    std::vector<float> xs =
        graded_lines(low_m.x, high_m.x, high_m.x - low_m.x, 1.1F, ground_half_side_m);
    std::vector<float> zs =
        graded_lines(low_m.y, high_m.y, high_m.y - low_m.y, 1.1F, ground_half_side_m);
    append_sheet(
        floor.mesh, xs, zs,
        [&](float x, float z) {
            return shapes::Vertex{.position_m = {x, 0, z}, .colour = mean_colour(laying)};
        },
        [&](float x, float z) {
            return x > low_m.x && x < high_m.x && z > low_m.y && z < high_m.y;
        });
    return one(std::move(floor));
}

}  // namespace backrow::setting
