#include "setting/backdrops.h"
#include "setting/leaves.h"

#include "setting/chance.h"

#include "shapes/assemble.h"
#include "shapes/primitives.h"

#include <glm/common.hpp>

#include <algorithm>
#include <array>
#include <cmath>

namespace backrow::setting {
namespace {

constexpr glm::vec3 bark{0.085F, 0.062F, 0.044F};
constexpr int most_triangles = 58000;
constexpr int clumps_a_tree = 26;
constexpr int core_triangles = 20;
constexpr int wood_triangles = 210;

struct Tree {
    glm::vec3 foot_m{0};
    float height_m = 7;
    float crown_radius_m = 2;
    int key = 0;
};

// Rows stand one behind the other and half a spacing apart.
struct Row {
    float behind_m, spacing_m, least_m, most_m;
};
constexpr std::array<Row, 2> rows{{{0.0F, 4.6F, 5.2F, 7.0F}, {8.0F, 5.4F, 6.5F, 8.8F}}};
constexpr float thicket_behind_m = 13;

// How far across the view reaches at a depth behind the backdrop's plane.
struct Span {
    float left, right;
};
Span span_at(const Reach& reach, float behind_m) {
    const double grown = 1 + behind_m / std::max(reach.lens_to_backdrop_m, 1.0);
    const double middle = (reach.left_m + reach.right_m) / 2;
    return {static_cast<float>(middle + (reach.left_m - middle) * grown),
            static_cast<float>(middle + (reach.right_m - middle) * grown)};
}

std::vector<Tree> plant(float back_m, const Reach& reach) {
    std::vector<Tree> trees;
    int row_number = 0;
    for (const Row& row : rows) {
        const Span span = span_at(reach, row.behind_m);
        // A view far wider than a garden gets trees further apart, not ever more of them.
        const float spacing_m = std::max(row.spacing_m, (span.right - span.left) / 14);
        const float shift = row_number % 2 == 0 ? 0.3F : 0.8F;
        const int first = static_cast<int>(std::floor(span.left / spacing_m - 0.9F));
        const int last = static_cast<int>(std::ceil(span.right / spacing_m));
        for (int i = first; i <= last; ++i) {
            Chance chance{81, row_number, i};
            const float height_m = chance.between(row.least_m, row.most_m);
            trees.push_back(
                {.foot_m = {(static_cast<float>(i) + shift + 0.16F * chance.bell()) * spacing_m, 0,
                            -back_m - 1.9F - row.behind_m - 2.2F * chance.unit()},
                 .height_m = height_m,
                 .crown_radius_m = height_m * chance.between(0.29F, 0.36F),
                 .key = row_number * 4001 + i});
        }
        ++row_number;
    }
    return trees;
}

void append_wood(shapes::Mesh& mesh, const Tree& tree, const glm::vec3& crown_m, Chance& chance) {
    const float girth_m = 0.021F * tree.height_m;
    const glm::vec3 bend{0.25F * chance.bell(), 0, 0.2F * chance.bell()};
    const auto on_trunk = [&](float share) {
        return glm::mix(tree.foot_m, crown_m, share) + bend * share * (1 - share);
    };
    const std::array<shapes::Ring, 5> trunk{{{on_trunk(0), 1.35F * girth_m},
                                             {on_trunk(0.08F), 1.02F * girth_m},
                                             {on_trunk(0.35F), 0.86F * girth_m},
                                             {on_trunk(0.7F), 0.6F * girth_m},
                                             {on_trunk(1.1F), 0.25F * girth_m}}};
    shapes::Mesh wood = shapes::tube(trunk, 9, bark);
    for (int limb = 0; limb < 5; ++limb) {
        const float share = chance.between(0.45F, 0.85F);
        glm::vec3 out = chance.direction();
        out.y = std::abs(out.y) * 0.6F + 0.35F;
        const glm::vec3 from = on_trunk(share);
        const glm::vec3 to = from + glm::normalize(out) * tree.crown_radius_m * 0.8F;
        const std::array<shapes::Ring, 3> branch{
            {{from, 0.42F * girth_m},
             {glm::mix(from, to, 0.5F) + glm::vec3{0, 0.12F, 0}, 0.27F * girth_m},
             {to, 0.1F * girth_m}}};
        shapes::append(wood, shapes::tube(branch, 5, bark));
    }
    for (shapes::Vertex& vertex : wood.vertices) {
        const float mottle = noise(vertex.position_m * glm::vec3{9, 2, 9}, 83);
        vertex.colour *= 0.65F + 0.7F * mottle;
        vertex.openness = 0.75F - 0.5F * smooth_step(0.3F, 0.9F, vertex.position_m.y / crown_m.y);
    }
    shapes::append(mesh, wood);
}

void append_tree(shapes::Mesh& wood, shapes::Mesh& foliage, const Tree& tree, int leaves) {
    Chance chance{84, tree.key};
    const float crown_base_m = tree.height_m * chance.between(0.24F, 0.32F);
    const glm::vec3 crown_m = tree.foot_m + glm::vec3{0, (tree.height_m + crown_base_m) / 2, 0};
    const glm::vec3 half_m{tree.crown_radius_m, (tree.height_m - crown_base_m) / 2,
                           tree.crown_radius_m};
    append_wood(wood, tree, crown_m, chance);

    const float hue = chance.unit();
    const glm::vec3 lit =
        glm::mix(glm::vec3{0.088F, 0.140F, 0.026F}, glm::vec3{0.150F, 0.165F, 0.034F}, hue);
    const glm::vec3 deep{0.016F, 0.028F, 0.008F};
    const float clump_m = 0.30F * tree.crown_radius_m;
    // Leaves of a clump have to cover its face once over: leaf area is 0.28 length²
    // (append_far_leaf).
    const int leaves_a_clump = leaves / clumps_a_tree;
    const float leaf_m = std::sqrt(1.35F * std::numbers::pi_v<float> * clump_m * clump_m * 2 /
                                   (0.28F * static_cast<float>(std::max(leaves_a_clump, 1))));
    for (int i = 0; i < clumps_a_tree; ++i) {
        const glm::vec3 out = chance.direction();
        const float share = std::cbrt(chance.between(0.08F, 1.0F));
        const float radius_m = clump_m * chance.between(0.75F, 1.3F);
        append_clump(foliage,
                     {.centre_m = crown_m + out * (half_m - radius_m) * share,
                      .radius_m = radius_m,
                      .crown_m = crown_m,
                      .crown_radius_m = tree.crown_radius_m,
                      .lit = lit,
                      .deep = deep},
                     leaves_a_clump, leaf_m, chance);
    }
}

// Bushes behind the last row close the view under the crowns.
void append_thicket(shapes::Mesh& foliage, float back_m, const Reach& reach, int triangles) {
    const Span span = span_at(reach, thicket_behind_m);
    const float spacing_m = std::max(0.85F, (span.right - span.left) / 52);
    const int first = static_cast<int>(std::floor(span.left / spacing_m)) - 1;
    const int last = static_cast<int>(std::ceil(span.right / spacing_m)) + 1;
    const int leaves = triangles / (last - first + 1) - core_triangles;
    for (int i = first; i <= last; ++i) {
        Chance chance{86, i};
        const float radius_m = spacing_m * chance.between(0.75F, 1.25F);
        const glm::vec3 centre_m{(static_cast<float>(i) + 0.3F * chance.bell()) * spacing_m,
                                 0.55F * radius_m + 0.2F * chance.unit(),
                                 -back_m - thicket_behind_m - 1.5F * chance.unit()};
        append_clump(foliage,
                     {.centre_m = centre_m,
                      .radius_m = radius_m,
                      .crown_m = centre_m - glm::vec3{0, 0.5F * radius_m, 0},
                      .crown_radius_m = 1.5F * radius_m,
                      .lit = {0.060F, 0.095F, 0.024F},
                      .deep = {0.012F, 0.021F, 0.007F}},
                     leaves, 0.24F * spacing_m, chance);
    }
}

} // namespace

std::vector<Piece> build_trees(double back_m, const Reach& reach) {
    const auto back = static_cast<float>(back_m);
    const std::vector<Tree> trees = plant(back, reach);
    constexpr int for_thicket = 7500;
    const int a_tree = (most_triangles - for_thicket) / static_cast<int>(trees.size());
    const int leaves = a_tree - wood_triangles - clumps_a_tree * core_triangles;

    Piece wood;
    Piece foliage;
    foliage.material.gloss = 0.1F;
    for (const Tree& tree : trees)
        append_tree(wood.mesh, foliage.mesh, tree, leaves);
    append_thicket(foliage.mesh, back, reach, for_thicket);
    return {wood, foliage};
}

} // namespace backrow::setting
