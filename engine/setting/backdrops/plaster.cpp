#include "setting/backdrops/backdrops.h"

#include "setting/backdrops/panels.h"
#include "setting/chance.h"
#include "setting/piece_lists.h"

#include <algorithm>
#include <cmath>

namespace backrow::setting {
namespace {

constexpr glm::vec3 limewash{0.560F, 0.520F, 0.440F};
constexpr float skirting_m = 0.14F;
constexpr float thickness_m = 0.20F;

// Trowel marks and an uneven wash; a little darker towards the floor, where rooms get less light.
Paint plastered(const glm::vec3& at) {
    const float cloud = rough_noise(glm::vec2{at.x, at.y} / 1.1F, 171);
    const float trowel = noise(glm::vec2{at.x / 0.35F, at.y / 0.16F}, 174);
    const float tone = 0.88F + 0.17F * cloud + 0.06F * trowel;
    return {std::min(tone, 1.6F) * limewash, 0.72F + 0.28F * smooth_step(0, 1.2F, at.y)};
}

}  // namespace

std::vector<Piece> build_plaster(double back_m, const Reach& reach) {
    const auto left = static_cast<float>(reach.left_m);
    const auto width_m = static_cast<float>(reach.right_m - reach.left_m);
    // Up to the ceiling, or as far as the picture shows.
    const float height_m = sensible_height_m(reach, 2.6F, 60.0F);
    const float front_z = -static_cast<float>(back_m);

    Piece wall;
    const int columns = std::clamp(static_cast<int>(width_m / 0.14F), 24, 120);
    const int rows = std::clamp(static_cast<int>(height_m / 0.11F), 16, 48);
    append_panel(wall.mesh, {{left, 0, front_z}, {width_m, 0, 0}, {0, height_m, 0}}, columns, rows,
                 plastered);
    append_box(wall.mesh, {left, height_m, front_z - thickness_m},
               {left + width_m, height_m + 0.01F, front_z}, {limewash, 0.8F});
    append_box(wall.mesh, {left, 0, front_z}, {left + width_m, skirting_m, front_z + 0.018F},
               {{0.43F, 0.40F, 0.35F}, 0.8F});
    return one(std::move(wall));
}

}  // namespace backrow::setting
