#include "setting/backdrops/backdrops.h"

#include "setting/backdrops/lattice.h"
#include "setting/chance.h"
#include "setting/ground/grounds.h"
#include "setting/piece_lists.h"
#include "setting/place/glints.h"

#include "shapes/assemble.h"
#include "shapes/primitives.h"

#include <glm/common.hpp>

#include <algorithm>
#include <array>
#include <iterator>

namespace backrow::setting {
namespace {

constexpr float above_ground_m = 0.02F;
constexpr float far_shore_m = 400;  // Behind the mark.
constexpr glm::vec3 deep{0.030F, 0.058F, 0.072F};
constexpr glm::vec3 shallow_view{0.165F, 0.225F, 0.275F};  // Looked at flat, water is mostly sky.
constexpr glm::vec3 quay_stone{0.27F, 0.255F, 0.225F};

shapes::Vertex water_at(float x, float z, float back_m, float lens_to_backdrop_m) {
    const float from_lens_m = lens_to_backdrop_m + (-back_m - z);
    const float flatness = smooth_step(6, 90, from_lens_m);
    // Wavelets near by, gusts further out; each fades where it would be finer than the lattice.
    const float wavelet = noise(glm::vec2{x / 0.9F, z / 0.34F}, 101);
    const float swell = noise(glm::vec2{x / 3.2F, z / 1.3F}, 102);
    const float gust = rough_noise(glm::vec2{x / 26.0F, z / 40.0F}, 103);
    const float fine = smooth_step(26, 9, from_lens_m);
    const float middling = smooth_step(80, 24, from_lens_m);
    const float ripple =
        0.55F * fine * (wavelet - 0.5F) + 0.6F * middling * (swell - 0.5F) + 0.35F * (gust - 0.5F);
    const float sky_share = std::clamp(0.28F + 0.6F * flatness + 0.75F * ripple, 0.0F, 1.0F);
    return {.position_m = {x, above_ground_m, z},
            .normal = glm::normalize(glm::vec3{0.12F * fine * (swell - 0.5F), 1, 0.16F * ripple}),
            .colour = glm::mix(deep, shallow_view, sky_share)};
}

// The stone edge that one would stand on.
void append_quay(shapes::Mesh& mesh, float left, float right, float back_m) {
    const float length_m = std::max(1.1F, (right - left) / 22);
    const int first = static_cast<int>(std::floor(left / length_m));
    const int last = static_cast<int>(std::ceil(right / length_m));
    for (int i = first; i < last; ++i) {
        Chance chance{105, i};
        const float x = static_cast<float>(i) * length_m;
        shapes::append(mesh,
                       shapes::bevelled_box({x + 0.004F, -0.05F, -back_m - 0.02F},
                                            {x + length_m - 0.004F, 0.13F, -back_m + 0.42F}, 0.018F,
                                            quay_stone * (1 + 0.14F * chance.bell())));
    }
}

// Low wooded hills on the other side, in haze.
void append_far_shore(shapes::Mesh& mesh) {
    struct Ridge {
        float back_m, height_m, length_m;
        glm::vec3 foot, crest;
    };
    static constexpr std::array<Ridge, 2> ridges{
        {{far_shore_m, 9, 21, {0.115F, 0.150F, 0.140F}, {0.085F, 0.120F, 0.105F}},
         {far_shore_m + 50, 25, 90, {0.30F, 0.37F, 0.42F}, {0.22F, 0.29F, 0.34F}}}};
    constexpr int steps = 90;
    int layer = 107;
    for (const Ridge& ridge : ridges) {
        const auto at = [&](int step, bool is_crest) {
            const float x = 720 * (static_cast<float>(step) / steps - 0.5F);
            const float rise = 0.3F + 0.7F * rough_noise({x / ridge.length_m, 0.5F}, layer);
            return shapes::Vertex{
                .position_m = {x, is_crest ? ridge.height_m * rise : 0, -ridge.back_m},
                .normal = glm::normalize(glm::vec3{0, 0.8F, 0.6F}),
                .colour = is_crest ? ridge.crest : ridge.foot};
        };
        for (int step = 0; step < steps; ++step) {
            shapes::append_quad(
                mesh, {at(step, false), at(step + 1, false), at(step + 1, true), at(step, true)});
        }
        layer += 3;
    }
}

}  // namespace

std::vector<Piece> build_water(double back_m, const Reach& reach) {
    const auto back = static_cast<float>(back_m);
    const auto lens_m = static_cast<float>(reach.lens_to_backdrop_m);
    const auto left = static_cast<float>(reach.left_m);
    const auto right = static_cast<float>(reach.right_m);

    std::vector<float> zs;
    for (float step = 0.2F, along = 0; along < far_shore_m - back; along += step, step *= 1.06F) {
        zs.push_back(-back - along);
    }
    zs.push_back(-std::max(far_shore_m, back + 1) - 5);
    std::ranges::reverse(zs);
    const float middle = (left + right) / 2;
    const float half = (right - left) / 2;
    std::vector<float> xs = graded_lines(-half, half, half / 9, 1.7F, ground_half_side_m);
    for (float& x : xs)
        x += middle;

    Piece surface{.material = {.gloss = 0.35F}};
    append_sheet(surface.mesh, xs, zs,
                 [&](float x, float z) { return water_at(x, z, back, lens_m); });
    Piece shores;
    append_quay(shores.mesh, left, right, back);
    append_far_shore(shores.mesh);

    std::vector<Piece> pieces = one(std::move(surface));
    pieces.push_back(std::move(shores));
    std::ranges::move(build_glints(back_m, above_ground_m, reach), std::back_inserter(pieces));
    return pieces;
}

}  // namespace backrow::setting
