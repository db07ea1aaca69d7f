#include "setting/ground/grounds.h"

#include "setting/backdrops/lattice.h"
#include "setting/chance.h"
#include "setting/piece_lists.h"

#include <glm/common.hpp>

#include <cmath>
#include <numbers>

namespace backrow::setting {
namespace {

constexpr glm::vec3 dry{0.345F, 0.275F, 0.190F};
constexpr glm::vec3 damp{0.205F, 0.160F, 0.105F};
constexpr float ripple_m = 0.16F;
constexpr float ripple_height_m = 0.009F;

// How far into a ripple a place is, in turns; crests run across the picture and wander.
float ripple_phase(float x, float z) noexcept {
    return z / ripple_m + 2.6F * noise(glm::vec2{x / 1.3F, z / 2.2F}, 21) + 0.12F * x;
}

float height_m(float x, float z) noexcept {
    const float fade = smooth_step(7, 3, std::hypot(x * 0.6F, z + 0.8F));
    return fade * ripple_height_m * (0.4F + 0.6F * noise(glm::vec2{x, z} / 0.9F, 24)) *
           (std::sin(2 * std::numbers::pi_v<float> * ripple_phase(x, z)) - 1);
}

shapes::Vertex sand_at(float x, float z) noexcept {
    const float reach_m = 0.008F;
    const float rise_x = (height_m(x + reach_m, z) - height_m(x - reach_m, z)) / (2 * reach_m);
    const float rise_z = (height_m(x, z + reach_m) - height_m(x, z - reach_m)) / (2 * reach_m);
    const float h = height_m(x, z);
    const float dampness = smooth_step(0.45F, 0.8F, rough_noise(glm::vec2{x, z} / 3.1F, 26));
    const float grain = noise(glm::vec2{x / 0.11F, z / 0.05F}, 29);
    const float fade = smooth_step(26, 8, std::hypot(x, z));
    const glm::vec3 near_by = glm::mix(dry, damp, 0.7F * dampness) * (0.9F + 0.2F * grain);
    const glm::vec3 far_away = glm::mix(dry, damp, 0.3F);
    return {.position_m = {x, h, z},
            .normal = glm::normalize(glm::vec3{-rise_x, 1, -rise_z}),
            .colour = glm::mix(far_away, near_by, fade),
            .ambient_visibility = 1 + 14 * h};
}

}  // namespace

std::vector<Piece> build_sand() {
    Piece beach;
    append_sheet(beach.mesh, graded_lines(-4.2F, 4.2F, 0.42F, 1.7F, ground_half_side_m),
                 graded_lines(-5.2F, 1.6F, 0.032F, 1.4F, ground_half_side_m), sand_at);
    return one(std::move(beach));
}

}  // namespace backrow::setting
