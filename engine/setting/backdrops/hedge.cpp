#include "setting/backdrops/backdrops.h"
#include "setting/backdrops/leaves.h"

#include "setting/chance.h"
#include "setting/piece_lists.h"

#include "shapes/assemble.h"
#include "shapes/normals.h"

#include <glm/common.hpp>

#include <algorithm>
#include <cmath>

namespace backrow::setting {
namespace {

constexpr float depth_m = 0.9F;
constexpr float shoulder_m = 0.14F;  // Radius over which the front turns into the top.
constexpr int most_leaves = 20500;
constexpr float coverage = 1.9F;  // Leaf area over hedge area.

constexpr glm::vec3 deep{0.012F, 0.022F, 0.007F};
constexpr glm::vec3 mature{0.040F, 0.072F, 0.017F};
constexpr glm::vec3 young{0.155F, 0.200F, 0.040F};

// A place on the clipped outline seen from the side, and which way it faces there.
struct Outline {
    float back_m, up_m;
    glm::vec3 out;
};

// along_m runs up the front, round the shoulder and over the top to the back.
Outline outline_at(float along_m, float height_m) {
    const float front_m = height_m - shoulder_m;
    const float turn_m = shoulder_m * std::numbers::pi_v<float> / 2;
    if (along_m < front_m)
        return {0, along_m, {0, 0.08F, 0.997F}};
    if (along_m < front_m + turn_m) {
        const float turn = (along_m - front_m) / shoulder_m;
        return {shoulder_m * (1 - std::cos(turn)),
                front_m + shoulder_m * std::sin(turn),
                {0, std::sin(turn), std::cos(turn)}};
    }
    return {shoulder_m + along_m - front_m - turn_m, height_m, {0, 1, 0}};
}

float outline_length_m(float height_m) {
    return height_m - shoulder_m + shoulder_m * std::numbers::pi_v<float> / 2 + depth_m -
           shoulder_m;
}

// Shears follow the plant only roughly: bulges about a hand deep and a step apart.
float bulge_m(float x, float along_m) {
    return 0.22F * (noise(glm::vec2{x / 0.62F, along_m / 0.5F}, 71) - 0.5F) +
           0.07F * (noise(glm::vec2{x / 0.21F, along_m / 0.19F}, 72) - 0.5F);
}

glm::vec3 on_hedge(float x, float along_m, float out_m, float height_m, float back_m) {
    const Outline outline = outline_at(along_m, height_m);
    return glm::vec3{x, outline.up_m, -back_m - outline.back_m} +
           (bulge_m(x, along_m) + out_m) * outline.out;
}

void append_inside(shapes::Mesh& mesh, float left, float right, float height_m, float back_m) {
    const int columns = std::clamp(static_cast<int>((right - left) / 0.3F), 2, 90);
    constexpr int rows = 10;
    shapes::Mesh body;
    for (int row = 0; row <= rows; ++row) {
        const float along_m = outline_length_m(height_m) * static_cast<float>(row) / rows;
        // Closer under the leaves on top, where they stand against the sky.
        const float inset_m = -0.17F + 0.09F * outline_at(along_m, height_m).out.y;
        for (int column = 0; column <= columns; ++column) {
            const float x =
                left + (right - left) * static_cast<float>(column) / static_cast<float>(columns);
            shapes::append(
                body, {.position_m = on_hedge(x, along_m, inset_m, height_m, back_m),
                       .colour = deep,
                       .ambient_visibility = 0.1F + 0.25F * outline_at(along_m, height_m).out.y});
        }
    }
    const auto stride = static_cast<std::uint32_t>(columns + 1);
    for (std::uint32_t row = 0; row < rows; ++row) {
        for (std::uint32_t column = 0; column + 1 < stride; ++column) {
            const std::uint32_t low = row * stride + column;
            shapes::append_triangle(body, low, low + 1, low + stride + 1);
            shapes::append_triangle(body, low, low + stride + 1, low + stride);
        }
    }
    shapes::smooth_normals(body);
    shapes::append(mesh, body);
}

void append_leaf_at(shapes::Mesh& mesh, float x, float along_m, float leaf_m, float height_m,
                    float back_m, Chance& chance) {
    // Where the plant is thin there are no outer leaves, and the dark inside shows.
    const float vigour = noise(glm::vec2{x / 0.34F, along_m / 0.30F}, 73);
    const float inward = chance.unit();
    const float hollow = smooth_step(0.42F, 0.22F, vigour);
    const float out_m = 0.05F - 0.15F * inward - 0.10F * hollow;
    const Outline outline = outline_at(along_m, height_m);

    glm::vec3 facing = outline.out + 0.62F * chance.direction() + glm::vec3{0, 0.22F, 0};
    if (facing.z < 0 && outline.out.z > 0.5F)
        facing.z = -facing.z;
    const float outside = std::clamp((out_m + 0.2F) / 0.25F, 0.0F, 1.0F);
    const float above = smooth_step(0, 1, along_m / height_m);
    const float open = (0.14F + 0.72F * outside * outside) * (0.62F + 0.38F * above);
    const float patch = rough_noise(glm::vec2{x, along_m} / 0.9F, 75);
    const float youth = std::clamp(outside * (1.5F * patch - 0.35F) +
                                       0.45F * outline.out.y * outside + 0.22F * chance.bell(),
                                   0.0F, 1.0F);
    const glm::vec3 colour =
        glm::mix(glm::mix(deep, mature, 0.25F + 0.75F * outside), young, youth);
    append_leaf(mesh, {.middle_m = on_hedge(x, along_m, out_m, height_m, back_m),
                       .facing = glm::normalize(facing),
                       .along = chance.direction() + glm::vec3{0, 0.5F, 0.3F},
                       .length_m = leaf_m * chance.between(0.75F, 1.25F),
                       .width_m = 0.5F * leaf_m * chance.between(0.8F, 1.2F),
                       .colour = colour * chance.between(0.8F, 1.25F),
                       .ambient_visibility = open});
}

}  // namespace

std::vector<Piece> build_hedge(double back_m, const Reach& reach) {
    const float height_m = sensible_height_m(reach, 1.8F, 2.4F);
    const float length_m = outline_length_m(height_m);
    const int first = static_cast<int>(std::floor(reach.left_m));
    const int last = static_cast<int>(std::ceil(reach.right_m));
    const auto back = static_cast<float>(back_m);

    // A leaf is half its length wide and a lozenge covers half of that: length²/4.
    const float area_m2 = length_m * static_cast<float>(last - first);
    const float leaf_m = stepped_size_m(
        std::max({0.055F, 0.005F * static_cast<float>(reach.lens_to_backdrop_m),
                  std::sqrt(4 * coverage * area_m2 / static_cast<float>(most_leaves))}));
    const int leaves_a_metre = static_cast<int>(4 * coverage * length_m / (leaf_m * leaf_m));

    Piece hedge;
    hedge.material.gloss = 0.12F;
    append_inside(hedge.mesh, static_cast<float>(first), static_cast<float>(last), height_m, back);
    for (int metre = first; metre < last; ++metre) {
        Chance chance{77, metre};
        for (int i = 0; i < leaves_a_metre; ++i) {
            const float x = static_cast<float>(metre) + chance.unit();
            const float along_m = length_m * chance.unit();
            append_leaf_at(hedge.mesh, x, along_m, leaf_m, height_m, back, chance);
        }
    }
    return one(std::move(hedge));
}

}  // namespace backrow::setting
