#include "setting/surroundings.h"

#include "setting/chance.h"
#include "setting/piece_lists.h"
#include "setting/place/bench.h"

#include "shapes/assemble.h"
#include "shapes/primitives.h"

#include <algorithm>
#include <cmath>

namespace backrow::setting {
namespace {

constexpr glm::vec3 tread_stone{0.37F, 0.35F, 0.31F};
constexpr glm::vec3 stone_below{0.27F, 0.255F, 0.225F};
constexpr float stone_m = 1.0F;  // The length of one piece.
constexpr float block_bevel_m = 0.006F;
constexpr float joint_m = 0.003F;
constexpr float tread_m = 0.045F;
constexpr float nosing_m = 0.012F;  // How far the tread stands out over what is below it.

void append_step(shapes::Mesh& mesh, const Block& block, int number) {
    const auto left = static_cast<float>(block.left_m);
    const auto right = static_cast<float>(block.right_m);
    const auto near_z = -static_cast<float>(block.near_back_m);
    const auto far_z = -static_cast<float>(block.far_back_m);
    const auto top = static_cast<float>(block.top_m);
    const float thickness = std::min(tread_m, top / 2);
    // Half-way sizes keep the smallest blocks solid.
    const float inset = std::min({nosing_m, (right - left) / 8, (near_z - far_z) / 8});
    const int pieces = std::max(1, static_cast<int>(std::lround((right - left) / stone_m)));
    const float length = (right - left) / static_cast<float>(pieces);
    const float gap = std::min(joint_m, length / 8);
    for (int i = 0; i < pieces; ++i) {
        Chance chance{121, number, i};
        const float from = left + static_cast<float>(i) * length + (i == 0 ? 0 : gap / 2);
        const float to =
            i + 1 == pieces ? right : left + static_cast<float>(i + 1) * length - gap / 2;
        const float tone = 1 + 0.07F * chance.bell();
        shapes::append(mesh, shapes::bevelled_box({from, top - thickness, far_z}, {to, top, near_z},
                                                  block_bevel_m, tone * tread_stone));
    }
    // It ends inside the tread, so that no two faces lie in one plane.
    shapes::Mesh body = shapes::bevelled_box({left + inset, 0, far_z + inset},
                                             {right - inset, top - thickness / 2, near_z - inset},
                                             block_bevel_m, stone_below);
    for (shapes::Vertex& vertex : body.vertices) {
        vertex.ambient_visibility = vertex.position_m.y < top / 2 ? 0.7F : 0.55F;
    }
    shapes::append(mesh, body);
}

}  // namespace

std::vector<Piece> build_blocks(const std::vector<Block>& blocks) {
    if (blocks.empty())
        return {};
    Piece all;
    int number = 0;
    for (const Block& block : blocks) {
        if (block.kind == BlockKind::seat)
            append_bench(all.mesh, block, number++);
        else
            append_step(all.mesh, block, number++);
    }
    return one(std::move(all));
}

}  // namespace backrow::setting
