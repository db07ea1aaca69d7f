#include "setting/grounds.h"

#include "setting/chance.h"
#include "setting/lattice.h"

#include <glm/common.hpp>

#include <algorithm>
#include <array>

namespace backrow::setting {
namespace {

constexpr float stripe_m = 0.55F; // The width of a hand-guided mower.
constexpr int tufts = 4600;
constexpr int blades_a_tuft = 3;
constexpr float tallest_blade_m = 0.055F;

// Albedo of a lawn is a few per cent in blue and red and about twice that in green.
constexpr glm::vec3 lush{0.040F, 0.085F, 0.016F};
constexpr glm::vec3 worn{0.095F, 0.115F, 0.036F};
constexpr glm::vec3 far_away{0.060F, 0.095F, 0.030F};

// +1 where the mower went away from the camera and the blades shine, −1 where it came back.
float stripe(float x) noexcept {
    const float phase = x / (2 * stripe_m);
    const float within = phase - std::floor(phase);
    return smooth_step(0.0F, 0.12F, within) - 2 * smooth_step(0.5F, 0.62F, within) +
           smooth_step(0.98F, 1.0F, within);
}

glm::vec3 lawn_colour(float x, float z) noexcept {
    const float patch = rough_noise(glm::vec2{x, z} / 1.7F, 11);
    const float speckle = noise(glm::vec2{x, z} / 0.23F, 14);
    const float fade = smooth_step(30, 9, std::hypot(x, z));
    const glm::vec3 near_by = glm::mix(lush, worn, smooth_step(0.35F, 0.75F, patch)) *
                              (1 + 0.14F * stripe(x)) * (0.80F + 0.4F * speckle);
    const float distant = rough_noise(glm::vec2{x, z} / 24.0F, 17);
    return glm::mix(far_away * (0.85F + 0.3F * distant), near_by, fade);
}

void append_tuft(shapes::Mesh& mesh, Chance& chance) {
    // Most where people stand, thinning out round them.
    const glm::vec2 middle{2.6F * chance.bell(), 2.1F * chance.bell() - 0.6F};
    const glm::vec3 base = lawn_colour(middle.x, middle.y);
    for (int i = 0; i < blades_a_tuft; ++i) {
        const glm::vec3 root{middle.x + chance.between(-0.03F, 0.03F), 0,
                             middle.y + chance.between(-0.03F, 0.03F)};
        const glm::vec3 outward = chance.direction();
        const float height_m = tallest_blade_m * chance.between(0.35F, 1.0F);
        const glm::vec3 lean{0.5F * height_m * outward.x, height_m, 0.5F * height_m * outward.z};
        const float half_width_m = chance.between(0.002F, 0.0042F);
        const glm::vec3 aside{half_width_m, 0, chance.between(-1, 1) * half_width_m};
        const glm::vec3 normal = glm::normalize(glm::vec3{0.5F * outward.x, 1.0F, 0.45F});
        const glm::vec3 tip =
            base * chance.between(1.05F, 1.9F) + glm::vec3{chance.between(0.0F, 0.015F), 0, 0};
        const auto left = shapes::append(mesh, {.position_m = root - aside,
                                                .normal = normal,
                                                .colour = 0.75F * base,
                                                .openness = 0.55F});
        shapes::append(mesh, {.position_m = root + aside,
                              .normal = normal,
                              .colour = 0.75F * base,
                              .openness = 0.55F});
        shapes::append(mesh, {.position_m = root + lean, .normal = normal, .colour = tip});
        shapes::append_triangle(mesh, left, left + 1, left + 2);
    }
}

} // namespace

std::vector<Piece> build_grass() {
    Piece lawn;
    append_sheet(lawn.mesh, graded_lines(-6.6F, 6.6F, stripe_m / 2, 1.5F, ground_half_side_m),
                 graded_lines(-8.4F, 2.4F, 0.3F, 1.5F, ground_half_side_m), [](float x, float z) {
                     return shapes::Vertex{
                         .position_m = {x, 0, z}, .colour = lawn_colour(x, z), .openness = 0.9F};
                 });
    Chance chance{1};
    for (int i = 0; i < tufts; ++i)
        append_tuft(lawn.mesh, chance);
    return {lawn};
}

} // namespace backrow::setting
