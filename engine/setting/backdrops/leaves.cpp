#include "setting/backdrops/leaves.h"

#include "setting/chance.h"

#include "shapes/assemble.h"
#include "shapes/primitives.h"

#include <glm/common.hpp>

#include <algorithm>
#include <cmath>

namespace backrow::setting {
namespace {

struct Frame {
    glm::vec3 along, aside;
};

// along × aside = −facing, so base, right, tip, left runs counter-clockwise seen from facing.
Frame frame_of(const Leaf& leaf) {
    glm::vec3 along = leaf.along - leaf.facing * glm::dot(leaf.along, leaf.facing);
    if (glm::dot(along, along) < 1e-6F) {
        along = glm::cross(leaf.facing, glm::vec3{leaf.facing.y, leaf.facing.z, -leaf.facing.x});
    }
    along = glm::normalize(along);
    return {along, glm::cross(along, leaf.facing)};
}

}  // namespace

void append_leaf(shapes::Mesh& mesh, const Leaf& leaf) {
    constexpr float fold = 0.28F;  // Height of the edges above the midrib over half the width.
    const auto [along, aside] = frame_of(leaf);
    const glm::vec3 half_along = 0.5F * leaf.length_m * along;
    const glm::vec3 half_aside = 0.5F * leaf.width_m * aside;
    const glm::vec3 lift = fold * 0.5F * leaf.width_m * leaf.facing;
    // The widest place lies nearer the stalk than the tip.
    const glm::vec3 shoulder = leaf.middle_m - 0.15F * half_along + lift;
    const glm::vec3 towards_right = glm::normalize(leaf.facing - fold * aside);
    const glm::vec3 towards_left = glm::normalize(leaf.facing + fold * aside);
    const auto base = shapes::append(mesh, {.position_m = leaf.middle_m - half_along,
                                            .normal = leaf.facing,
                                            .colour = 0.8F * leaf.colour,
                                            .ambient_visibility = 0.8F * leaf.ambient_visibility});
    shapes::append(mesh, {.position_m = shoulder + half_aside,
                          .normal = towards_right,
                          .colour = leaf.colour,
                          .ambient_visibility = leaf.ambient_visibility});
    shapes::append(mesh, {.position_m = leaf.middle_m + half_along,
                          .normal = leaf.facing,
                          .colour = glm::min(1.15F * leaf.colour, 1.0F),
                          .ambient_visibility = leaf.ambient_visibility});
    shapes::append(mesh, {.position_m = shoulder - half_aside,
                          .normal = towards_left,
                          .colour = leaf.colour,
                          .ambient_visibility = leaf.ambient_visibility});
    shapes::append_triangle(mesh, base, base + 1, base + 2);
    shapes::append_triangle(mesh, base, base + 2, base + 3);
}

void append_far_leaf(shapes::Mesh& mesh, const Leaf& leaf) {
    const auto [along, aside] = frame_of(leaf);
    const auto corner = [&, along = along, aside = aside](float forward, float right, float shade) {
        return shapes::append(mesh, {.position_m = leaf.middle_m + forward * leaf.length_m * along +
                                                   right * leaf.width_m * aside,
                                     .normal = leaf.facing,
                                     .colour = glm::min(shade * leaf.colour, 1.0F),
                                     .ambient_visibility = leaf.ambient_visibility});
    };
    const auto base = corner(-0.45F, -0.3F, 0.85F);
    corner(-0.15F, 0.6F, 1.0F);
    corner(0.6F, -0.3F, 1.15F);
    shapes::append_triangle(mesh, base, base + 1, base + 2);
}

float stepped_size_m(float size_m) noexcept {
    return std::exp2(std::ceil(8 * std::log2(size_m)) / 8);
}

void append_clump(shapes::Mesh& mesh, const Clump& clump, int leaves, float leaf_m) {
    Chance chance{88, clump.key};
    // How open to the sky a place is: outside more than inside, above more than below.
    const auto ambient_visibility_at = [&](const glm::vec3& at_m) {
        const glm::vec3 from_crown = (at_m - clump.crown_m) / clump.crown_radius_m;
        const float outside = std::min(glm::length(from_crown), 1.0F);
        return std::clamp(0.12F + 0.5F * outside * outside + 0.38F * from_crown.y, 0.08F, 1.0F);
    };
    shapes::Mesh core = shapes::icosahedron(clump.centre_m, 0.72F * clump.radius_m, clump.deep);
    for (shapes::Vertex& vertex : core.vertices) {
        // Uneven, lest it show for what it is.
        vertex.position_m =
            glm::mix(clump.centre_m, vertex.position_m, chance.between(0.75F, 1.2F));
        vertex.ambient_visibility = 0.45F * ambient_visibility_at(vertex.position_m);
        vertex.colour *= chance.between(0.5F, 2.2F);
    }
    shapes::append(mesh, core);

    for (int i = 0; i < leaves; ++i) {
        glm::vec3 out = chance.direction();
        if (out.z < -0.35F)
            out.z = -out.z;
        const float depth = chance.unit() * chance.unit();  // Mostly outside.
        const glm::vec3 at_m = clump.centre_m + out * clump.radius_m * (1.06F - 0.4F * depth);
        const glm::vec3 of_crown = (at_m - clump.crown_m) / clump.crown_radius_m;
        glm::vec3 facing =
            out + 0.5F * of_crown + 0.75F * chance.direction() + glm::vec3{0, 0.25F, 0.2F};
        if (facing.z < 0)
            facing.z *= -0.5F;
        const float open = ambient_visibility_at(at_m) * (1 - 0.55F * depth);
        const float youth = std::clamp(open * (0.55F + 0.6F * chance.unit()), 0.0F, 1.0F);
        append_far_leaf(
            mesh, {.middle_m = at_m,
                   .facing = glm::normalize(facing),
                   .along = chance.direction() - glm::vec3{0, 0.4F, 0},
                   .length_m = leaf_m * chance.between(0.75F, 1.25F),
                   .width_m = 0.62F * leaf_m * chance.between(0.75F, 1.25F),
                   .colour = glm::mix(clump.deep, clump.lit, youth) * chance.between(0.8F, 1.2F),
                   .ambient_visibility = open});
    }
}

}  // namespace backrow::setting
