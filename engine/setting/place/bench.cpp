#include "setting/place/bench.h"

#include "setting/chance.h"

#include "shapes/assemble.h"
#include "shapes/primitives.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace backrow::setting {
namespace {

// Joinery, by eye.
constexpr glm::vec3 oak{0.30F, 0.20F, 0.115F};
constexpr glm::vec3 frame_oak{0.21F, 0.137F, 0.078F};
constexpr float slat_m = 0.11F;
constexpr float gap_m = 0.007F;
constexpr float slat_thick_m = 0.028F;
constexpr float apron_m = 0.060F;
constexpr float apron_thick_m = 0.022F;
constexpr float inset_m = 0.030F;  // Of the frame from the edge of the slats.
constexpr float leg_radius_m = 0.021F;
constexpr float splay_m = 0.022F;  // Legs stand wider at the floor, still under the slats.
constexpr float bevel_m = 0.005F;
constexpr float legs_apart_m = 1.3F;
constexpr float rails_from_m = 0.30F;  // A seat lower than that has no rails.
constexpr float rail_radius_m = 0.011F;

/// A box in the block's own words.
struct Box {
    glm::vec3 low_m, high_m;
    [[nodiscard]] glm::vec3 size_m() const { return high_m - low_m; }
};

void append_board(shapes::Mesh& mesh, const Box& board, const glm::vec3& colour,
                  float ambient_visibility) {
    shapes::Mesh part = shapes::bevelled_box(board.low_m, board.high_m, bevel_m, colour);
    for (shapes::Vertex& vertex : part.vertices)
        vertex.ambient_visibility = ambient_visibility;
    shapes::append(mesh, part);
}

/// Upright but for its foot, which stands aside on the floor.
void append_leg(shapes::Mesh& mesh, const glm::vec3& foot_m, float top_m, float radius_m,
                const glm::vec3& aside_m) {
    const std::array rings{shapes::Ring{foot_m, 0.72F * radius_m},
                           shapes::Ring{{foot_m.x, top_m, foot_m.z}, radius_m}};
    shapes::Mesh leg = shapes::tube(rings, 10, frame_oak);
    for (shapes::Vertex& vertex : leg.vertices) {
        const float down = (top_m - vertex.position_m.y) / (top_m - foot_m.y);
        vertex.position_m += down * aside_m;
        vertex.ambient_visibility = down < 0.5F ? 0.6F : 0.75F;
    }
    shapes::append(mesh, leg);
}

void append_rail(shapes::Mesh& mesh, const glm::vec3& from_m, const glm::vec3& to_m) {
    const std::array rings{shapes::Ring{from_m, rail_radius_m}, shapes::Ring{to_m, rail_radius_m}};
    shapes::Mesh rail = shapes::tube(rings, 8, frame_oak);
    for (shapes::Vertex& vertex : rail.vertices)
        vertex.ambient_visibility = 0.6F;
    shapes::append(mesh, rail);
}

/// Lengthwise, with a shade of its own each.
void append_slats(shapes::Mesh& mesh, const Box& seat, float thick_m, int number) {
    const float depth_m = seat.size_m().z;
    const int slats = std::max(1, static_cast<int>(std::lround(depth_m / slat_m)));
    const float pitch_m = depth_m / static_cast<float>(slats);
    const float gap = std::min(gap_m, pitch_m / 8);
    for (int i = 0; i < slats; ++i) {
        Chance chance{122, number, i};
        const float from =
            i == 0 ? seat.low_m.z : seat.low_m.z + static_cast<float>(i) * pitch_m + gap / 2;
        const float to = i + 1 == slats
                             ? seat.high_m.z
                             : seat.low_m.z + static_cast<float>(i + 1) * pitch_m - gap / 2;
        append_board(
            mesh,
            {{seat.low_m.x, seat.high_m.y - thick_m, from}, {seat.high_m.x, seat.high_m.y, to}},
            (1 + 0.07F * chance.bell()) * oak, 1);
    }
}

}  // namespace

void append_bench(shapes::Mesh& mesh, const Block& block, int number) {
    const Box seat{{block.left_m, block.foot_m, -block.far_back_m},
                   {block.right_m, block.top_m, -block.near_back_m}};
    const glm::vec3 size = seat.size_m();
    // Shares keep even the smallest seat solid and within its box.
    const float thick = std::min(slat_thick_m, size.y / 4);
    const float apron = std::min(apron_m, size.y / 5);
    const float inset = std::min({inset_m, size.x / 8, size.z / 8});
    const float radius = std::min({leg_radius_m, size.x / 10, size.z / 10});
    const float splay = std::min(splay_m, inset + radius / 2);
    append_slats(mesh, seat, thick, number);

    // The frame reaches into the slats by half their thickness, so that no two faces lie in one
    // plane.
    const float under = seat.high_m.y - thick / 2;
    const float apron_thick = std::min(apron_thick_m, radius);
    const glm::vec3 low{seat.low_m.x + inset, under - apron, seat.low_m.z + inset};
    const glm::vec3 high{seat.high_m.x - inset, under, seat.high_m.z - inset};
    for (const float z : {low.z, high.z - apron_thick})
        append_board(mesh, {{low.x, low.y, z}, {high.x, high.y, z + apron_thick}}, frame_oak, 0.8F);

    const int frames = 2 + static_cast<int>(size.x / legs_apart_m);
    for (int i = 0; i < frames; ++i) {
        const float share = static_cast<float>(i) / static_cast<float>(frames - 1);
        const float aside = i == 0 ? -1.0F : i + 1 == frames ? 1.0F : 0.0F;
        const float x = low.x + radius + share * (high.x - low.x - 2 * radius);
        append_board(mesh,
                     {{std::clamp(x - apron_thick / 2, low.x, high.x - apron_thick), low.y,
                       low.z + apron_thick / 2},
                      {std::clamp(x - apron_thick / 2, low.x, high.x - apron_thick) + apron_thick,
                       high.y - thick / 8, high.z - apron_thick / 2}},
                     frame_oak, 0.7F);
        const float front = high.z - radius, behind = low.z + radius;
        for (const float side : {-1.0F, 1.0F})
            append_leg(mesh, {x, seat.low_m.y, side < 0 ? behind : front}, under, radius,
                       {aside * splay, 0, side * splay});
        if (size.y > rails_from_m) {
            const float up = seat.low_m.y + 0.3F * size.y;
            append_rail(mesh, {x + 0.7F * aside * splay, up, behind - 0.7F * splay},
                        {x + 0.7F * aside * splay, up, front + 0.7F * splay});
        }
    }
}

}  // namespace backrow::setting
