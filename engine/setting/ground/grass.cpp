#include "setting/ground/grounds.h"

#include "setting/backdrops/lattice.h"
#include "setting/chance.h"
#include "setting/piece_lists.h"

#include <glm/common.hpp>

#include <algorithm>
#include <array>

namespace backrow::setting {
namespace {

constexpr float stripe_m = 0.55F;  // The width of a hand-guided mower.
constexpr int tufts = 5500;
constexpr int blades_a_tuft = 3;
constexpr float tallest_blade_m = 0.05F;

// Albedo of a lawn is a few per cent in blue and red and about twice that in green.
constexpr glm::vec3 lush{0.042F, 0.078F, 0.018F};
constexpr glm::vec3 worn{0.082F, 0.099F, 0.034F};
constexpr glm::vec3 far_away{0.061F, 0.088F, 0.027F};

// +1 where the mower went away from the camera and the blades shine, −1 where it came back.
float stripe(float x) noexcept {
    const float phase = x / (2 * stripe_m);
    const float within = phase - std::floor(phase);
    return smooth_step(0.0F, 0.12F, within) - 2 * smooth_step(0.5F, 0.62F, within) +
           smooth_step(0.98F, 1.0F, within);
}

glm::vec3 lawn_colour(float x, float z) noexcept {
    const float patch = rough_noise(glm::vec2{x, z} / 1.3F, 11);
    const float speckle = noise(glm::vec2{x / 0.5F, z / 0.36F}, 14);
    const float fade = smooth_step(30, 9, std::hypot(x, z));
    const glm::vec3 near_by = glm::mix(lush, worn, 0.15F + 0.7F * smooth_step(0.2F, 0.85F, patch)) *
                              (1 + 0.13F * stripe(x)) * (0.82F + 0.36F * speckle);
    const float distant = rough_noise(glm::vec2{x, z} / 24.0F, 17);
    return glm::mix(far_away * (0.85F + 0.3F * distant), near_by, fade);
}

void append_tuft(shapes::Mesh& mesh, Chance& chance) {
    // Most where people stand, thinning out round them.
    const glm::vec2 middle{2.4F * chance.bell(), 1.5F * chance.bell() - 0.7F};
    const glm::vec3 base = lawn_colour(middle.x, middle.y);
    for (int i = 0; i < blades_a_tuft; ++i) {
        const glm::vec3 root{middle.x + chance.between(-0.04F, 0.04F), 0,
                             middle.y + chance.between(-0.04F, 0.04F)};
        const glm::vec3 outward = chance.direction();
        const float height_m = tallest_blade_m * chance.between(0.3F, 1.0F);
        const glm::vec3 tip_m =
            root + height_m * glm::vec3{0.55F * outward.x, 1, 0.55F * outward.z};
        const float half_width_m = chance.between(0.003F, 0.0062F);
        const glm::vec3 aside{half_width_m, 0, chance.between(-0.6F, 0.6F) * half_width_m};
        // Blades are lit as the lawn is, a little more or less each, so that they belong to it.
        const glm::vec3 normal =
            glm::normalize(glm::vec3{0.35F * outward.x, 1, 0.35F * outward.z + 0.1F});
        const float tone = chance.between(0.6F, 1.75F);
        const glm::vec3 tint{1 + 0.25F * chance.unit(), 1, 0.9F};
        const shapes::Vertex foot{
            .normal = normal, .colour = 0.8F * base, .ambient_visibility = 0.75F};
        shapes::Vertex left = foot;
        left.position_m = root - aside;
        shapes::Vertex right = foot;
        right.position_m = root + aside;
        const auto first = shapes::append(mesh, left);
        shapes::append(mesh, right);
        shapes::append(mesh, {.position_m = tip_m, .normal = normal, .colour = tone * tint * base});
        shapes::append_triangle(mesh, first, first + 1, first + 2);
    }
}

}  // namespace

std::vector<Piece> build_grass() {
    Piece lawn;
    append_sheet(lawn.mesh, graded_lines(-6.6F, 6.6F, stripe_m / 2, 1.8F, ground_half_side_m),
                 graded_lines(-3.4F, 1.4F, 0.2F, 1.55F, ground_half_side_m), [](float x, float z) {
                     return shapes::Vertex{.position_m = {x, 0, z},
                                           .colour = lawn_colour(x, z),
                                           .ambient_visibility = 0.9F};
                 });
    Chance chance{1};
    lawn.mesh.vertices.reserve(lawn.mesh.vertices.size() + std::size_t{3} * blades_a_tuft * tufts);
    for (int i = 0; i < tufts; ++i)
        append_tuft(lawn.mesh, chance);
    return one(std::move(lawn));
}

}  // namespace backrow::setting
