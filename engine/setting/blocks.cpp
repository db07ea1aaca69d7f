#include "setting/surroundings.h"

#include "setting/chance.h"
#include "setting/piece_lists.h"

#include "shapes/assemble.h"
#include "shapes/primitives.h"

#include <algorithm>
#include <cmath>

namespace backrow::setting {
namespace {

// Seats are of wood, steps and risers of stone. A seat is about knee-high and no deeper than one.
bool is_seat(const Block& block) {
    return block.top_m >= 0.32 && block.top_m <= 0.6 && block.far_back_m - block.near_back_m <= 0.6;
}

struct Stuff {
    glm::vec3 tread, below;
    float length_m;  // Of one piece.
};
constexpr Stuff stone{{0.37F, 0.35F, 0.31F}, {0.27F, 0.255F, 0.225F}, 1.0F};
constexpr Stuff wood{{0.30F, 0.20F, 0.115F}, {0.17F, 0.11F, 0.065F}, 2.4F};

constexpr float bevel_m = 0.006F;
constexpr float joint_m = 0.003F;
constexpr float tread_m = 0.045F;
constexpr float nosing_m = 0.012F;  // How far the tread stands out over what is below it.

void append_block(shapes::Mesh& mesh, const Block& block, int number) {
    const Stuff& stuff = is_seat(block) ? wood : stone;
    const auto left = static_cast<float>(block.left_m);
    const auto right = static_cast<float>(block.right_m);
    const auto near_z = -static_cast<float>(block.near_back_m);
    const auto far_z = -static_cast<float>(block.far_back_m);
    const auto top = static_cast<float>(block.top_m);
    const float thickness = std::min(tread_m, top / 2);
    // Half-way sizes keep the smallest blocks solid.
    const float inset = std::min({nosing_m, (right - left) / 8, (near_z - far_z) / 8});
    const int pieces = std::max(1, static_cast<int>(std::lround((right - left) / stuff.length_m)));
    const float length = (right - left) / static_cast<float>(pieces);
    const float gap = std::min(joint_m, length / 8);
    for (int i = 0; i < pieces; ++i) {
        Chance chance{121, number, i};
        const float from = left + static_cast<float>(i) * length + (i == 0 ? 0 : gap / 2);
        const float to =
            i + 1 == pieces ? right : left + static_cast<float>(i + 1) * length - gap / 2;
        const float tone = 1 + 0.07F * chance.bell();
        shapes::append(mesh, shapes::bevelled_box({from, top - thickness, far_z}, {to, top, near_z},
                                                  bevel_m, tone * stuff.tread));
    }
    // It ends inside the tread, so that no two faces lie in one plane.
    shapes::Mesh body = shapes::bevelled_box({left + inset, 0, far_z + inset},
                                             {right - inset, top - thickness / 2, near_z - inset},
                                             bevel_m, stuff.below);
    for (shapes::Vertex& vertex : body.vertices) {
        vertex.openness = vertex.position_m.y < top / 2 ? 0.7F : 0.55F;
    }
    shapes::append(mesh, body);
}

}  // namespace

std::vector<Piece> build_blocks(const std::vector<Block>& blocks) {
    if (blocks.empty())
        return {};
    Piece all;
    int number = 0;
    for (const Block& block : blocks)
        append_block(all.mesh, block, number++);
    return one(std::move(all));
}

}  // namespace backrow::setting
