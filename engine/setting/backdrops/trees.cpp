#include "setting/backdrops/backdrops.h"
#include "setting/backdrops/leaves.h"

#include "setting/chance.h"
#include "setting/piece_lists.h"

#include "shapes/assemble.h"
#include "shapes/primitives.h"

#include <glm/common.hpp>

#include <algorithm>
#include <array>
#include <cmath>

namespace backrow::setting {
namespace {

constexpr glm::vec3 bark{0.085F, 0.062F, 0.044F};
constexpr int most_triangles = 59000;
constexpr int core_triangles = 20;  // Of one clump.
constexpr int clumps_a_tree = 30;
constexpr float coverage = 0.68F;  // Leaf area over the face of a clump.

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
constexpr float thicket_behind_m = 14;

std::vector<Tree> plant(float back_m, const Reach& reach) {
    std::vector<Tree> trees;
    int row_number = 0;
    for (const Row& row : rows) {
        const Window window = window_behind(reach, row.behind_m);
        // A view far wider than a garden gets trees further apart, not ever more of them.
        const float spacing_m = std::max(row.spacing_m, (window.right_m - window.left_m) / 14);
        const float shift = row_number % 2 == 0 ? 0.3F : 0.8F;
        const int first = static_cast<int>(std::floor(window.left_m / spacing_m - 0.9F));
        const int last = static_cast<int>(std::ceil(window.right_m / spacing_m));
        for (int i = first; i <= last; ++i) {
            Chance chance{81, row_number, i};
            const float height_m = chance.between(row.least_m, row.most_m);
            trees.push_back(
                {.foot_m = {(static_cast<float>(i) + shift + 0.16F * chance.bell()) * spacing_m, 0,
                            -back_m - 2.6F - row.behind_m - 2.2F * chance.unit()},
                 .height_m = height_m,
                 .crown_radius_m = height_m * chance.between(0.31F, 0.39F),
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
        const float share = chance.between(0.5F, 0.9F);
        glm::vec3 out = chance.direction();
        out.y = std::abs(out.y) * 0.6F + 0.5F;
        const glm::vec3 from = on_trunk(share);
        const glm::vec3 to = from + glm::normalize(out) * tree.crown_radius_m * 0.7F;
        const std::array<shapes::Ring, 3> branch{
            {{from, 0.42F * girth_m},
             {glm::mix(from, to, 0.5F) + glm::vec3{0, 0.12F, 0}, 0.27F * girth_m},
             {to, 0.1F * girth_m}}};
        shapes::append(wood, shapes::tube(branch, 5, bark));
    }
    for (shapes::Vertex& vertex : wood.vertices) {
        const float mottle = noise(vertex.position_m * glm::vec3{9, 2, 9}, 83);
        vertex.colour *= 0.65F + 0.7F * mottle;
        vertex.ambient_visibility =
            0.75F - 0.5F * smooth_step(0.3F, 0.9F, vertex.position_m.y / crown_m.y);
    }
    shapes::append(mesh, wood);
}

// The clumps of one crown that reach down into the view.
void grow_crown(std::vector<Clump>& clumps, shapes::Mesh& wood, const Tree& tree,
                const Window& window) {
    Chance chance{84, tree.key};
    const float crown_base_m = tree.height_m * chance.between(0.15F, 0.24F);
    const glm::vec3 crown_m = tree.foot_m + glm::vec3{0, (tree.height_m + crown_base_m) / 2, 0};
    const glm::vec3 half_m{tree.crown_radius_m, (tree.height_m - crown_base_m) / 2,
                           tree.crown_radius_m};
    append_wood(wood, tree, crown_m, chance);

    const float hue = chance.unit();
    const glm::vec3 lit =
        glm::mix(glm::vec3{0.100F, 0.155F, 0.028F}, glm::vec3{0.175F, 0.185F, 0.036F}, hue);
    for (int i = 0; i < clumps_a_tree; ++i) {
        const glm::vec3 out = chance.direction();
        const float share = std::cbrt(chance.between(0.08F, 1.0F));
        const float radius_m = 0.30F * tree.crown_radius_m * chance.between(0.75F, 1.3F);
        const glm::vec3 centre_m = crown_m + out * (half_m - radius_m) * share;
        if (centre_m.y - radius_m > window.top_m)
            continue;
        clumps.push_back({.centre_m = centre_m,
                          .radius_m = radius_m,
                          .crown_m = crown_m,
                          .crown_radius_m = tree.crown_radius_m,
                          .lit = lit,
                          .deep = {0.018F, 0.030F, 0.009F},
                          .key = tree.key * clumps_a_tree + i});
    }
}

// Bushes behind the last row close the view under the crowns.
void grow_thicket(std::vector<Clump>& clumps, float back_m, const Reach& reach) {
    const Window window = window_behind(reach, thicket_behind_m);
    const float spacing_m = std::max(0.8F, (window.right_m - window.left_m) / 60);
    const int first = static_cast<int>(std::floor(window.left_m / spacing_m)) - 1;
    const int last = static_cast<int>(std::ceil(window.right_m / spacing_m)) + 1;
    for (int i = first; i <= last; ++i) {
        Chance chance{86, i};
        const float rise = noise(glm::vec2{static_cast<float>(i) * spacing_m / 3.4F, 0}, 87);
        const float radius_m = spacing_m * chance.between(0.85F, 1.3F);
        const glm::vec3 foot_m{(static_cast<float>(i) + 0.3F * chance.bell()) * spacing_m, 0,
                               -back_m - thicket_behind_m - 1.2F * chance.unit()};
        for (const float up_m : {0.5F * radius_m, 0.9F + 1.5F * rise}) {
            const glm::vec3 centre_m = foot_m + glm::vec3{0, up_m, up_m > 0.8F ? -0.5F : 0.0F};
            clumps.push_back({.centre_m = centre_m,
                              .radius_m = radius_m,
                              .crown_m = centre_m - glm::vec3{0, 0.5F * radius_m, 0.3F * radius_m},
                              .crown_radius_m = 1.5F * radius_m,
                              .lit = {0.062F, 0.098F, 0.025F},
                              .deep = {0.013F, 0.023F, 0.008F},
                              .key = 900001 + 2 * i + (up_m > 0.8F ? 1 : 0)});
        }
    }
}

// How many leaves of unit size a clump needs. Further away they are larger, in the same
// proportion; a clump at the back of its crown hides behind others and can do with fewer.
float leaves_needed(const Clump& clump, float size) {
    const float hidden =
        smooth_step(0.1F, -0.7F, (clump.centre_m.z - clump.crown_m.z) / clump.crown_radius_m);
    return coverage * (1 - 0.75F * hidden) * 2 * std::numbers::pi_v<float> * clump.radius_m *
           clump.radius_m / (far_leaf_area * size * size);
}

}  // namespace

std::vector<Piece> build_trees(double back_m, const Reach& reach) {
    const auto back = static_cast<float>(back_m);
    const auto lens_m = static_cast<float>(reach.lens_to_backdrop_m);
    Piece wood;
    std::vector<Clump> clumps;
    for (const Tree& tree : plant(back, reach)) {
        grow_crown(clumps, wood.mesh, tree, window_behind(reach, -back - tree.foot_m.z));
    }
    grow_thicket(clumps, back, reach);

    const auto size_at = [&](const Clump& clump) {
        return 1 + std::max(0.0F, -back - clump.centre_m.z) / std::max(lens_m, 1.0F);
    };
    float needed = 0;
    for (const Clump& clump : clumps)
        needed += leaves_needed(clump, size_at(clump));
    const auto most_leaves =
        static_cast<float>(most_triangles - static_cast<int>(shapes::triangle_count(wood.mesh)) -
                           core_triangles * static_cast<int>(clumps.size()));
    const float leaf_m = stepped_size_m(std::max(0.006F * lens_m, std::sqrt(needed / most_leaves)));

    Piece foliage;
    foliage.material.gloss = 0.1F;
    for (const Clump& clump : clumps) {
        const float size_m = leaf_m * size_at(clump);
        append_clump(foliage.mesh, clump, static_cast<int>(leaves_needed(clump, size_m)), size_m);
    }
    std::vector<Piece> pieces = one(std::move(wood));
    pieces.push_back(std::move(foliage));
    return pieces;
}

}  // namespace backrow::setting
