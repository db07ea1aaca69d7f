#include "setting/backdrops/backdrops.h"

#include "setting/chance.h"
#include "setting/piece_lists.h"

#include "shapes/assemble.h"
#include "shapes/primitives.h"

#include <glm/common.hpp>

#include <algorithm>
#include <cmath>

namespace backrow::setting {
namespace {

// The metric brick, 215 × 65 mm on the face, with joints of 10 mm: courses of 75 mm. [BS3921]
constexpr float brick_m = 0.215F;
constexpr float course_m = 0.075F;
constexpr float joint_m = 0.010F;
constexpr float recess_m = 0.008F;
constexpr float thickness_m = 0.215F;
constexpr float coping_height_m = 0.075F;
constexpr float overhang_m = 0.045F;
constexpr int most_bricks = 4500;

constexpr glm::vec3 red{0.270F, 0.098F, 0.058F};
constexpr glm::vec3 burnt{0.120F, 0.052F, 0.042F};
constexpr glm::vec3 pale{0.350F, 0.180F, 0.110F};
constexpr glm::vec3 mortar{0.330F, 0.300F, 0.255F};
constexpr glm::vec3 moss{0.060F, 0.075F, 0.030F};
constexpr glm::vec3 stone{0.290F, 0.272F, 0.238F};

// Soot under the coping, damp and moss at the foot, and patches in between.
glm::vec3 weathered(const glm::vec3& colour, const glm::vec2& at, float height_m) {
    const float patch = rough_noise(at / 1.4F, 61);
    const float streak = noise(glm::vec2{at.x / 0.22F, at.y / 1.6F}, 64);
    const float under_coping = smooth_step(0.7F, 0.0F, height_m - at.y) * (0.2F + 0.5F * streak);
    const float foot = smooth_step(0.55F, 0.0F, at.y) * (0.25F + 0.5F * patch);
    return glm::mix(colour * (0.76F + 0.48F * patch) * (1 - 0.5F * under_coping), moss,
                    0.7F * foot);
}

glm::vec3 brick_colour(Chance& chance) {
    const float kind = chance.unit();
    const glm::vec3 clay = kind < 0.17F   ? glm::mix(burnt, red, 0.6F * chance.unit())
                           : kind < 0.34F ? glm::mix(red, pale, chance.unit())
                                          : red;
    return clay * (1 + 0.13F * chance.bell());
}

void append_brick(shapes::Mesh& mesh, const glm::vec2& low_m, const glm::vec2& high_m,
                  float front_z, float height_m, Chance& chance) {
    const glm::vec3 clay = brick_colour(chance);
    const glm::vec3 normal =
        glm::normalize(glm::vec3{0.03F * chance.bell(), 0.03F * chance.bell(), 1});
    const float z = front_z - 0.002F * chance.unit();
    const auto corner = [&](float x, float y) {
        return shapes::Vertex{
            .position_m = {x, y, z},
            .normal = normal,
            .colour = weathered(clay, {x, y}, height_m) * chance.between(0.88F, 1.12F),
            .ambient_visibility = 1 - 0.45F * smooth_step(0.12F, 0.0F, height_m - y) -
                                  0.3F * smooth_step(0.15F, 0.0F, y)};
    };
    shapes::append_quad(mesh, {corner(low_m.x, low_m.y), corner(high_m.x, low_m.y),
                               corner(high_m.x, high_m.y), corner(low_m.x, high_m.y)});
}

// The plane of the joints, and the back and ends that make the wall solid.
void append_core(shapes::Mesh& mesh, float left, float right, float front_z, float height_m) {
    const float z = front_z - recess_m;
    const float back_z = front_z - thickness_m;
    const int columns = std::clamp(static_cast<int>((right - left) / 0.9F), 1, 60);
    constexpr int rows = 4;
    const auto at = [&](int column, int row) {
        const float x =
            left + (right - left) * static_cast<float>(column) / static_cast<float>(columns);
        const float y = height_m * static_cast<float>(row) / rows;
        return shapes::Vertex{.position_m = {x, y, z},
                              .normal = {0, 0, 1},
                              .colour = weathered(mortar, {x, y}, height_m),
                              .ambient_visibility = 0.55F};
    };
    for (int row = 0; row < rows; ++row) {
        for (int column = 0; column < columns; ++column) {
            shapes::append_quad(mesh, {at(column, row), at(column + 1, row),
                                       at(column + 1, row + 1), at(column, row + 1)});
        }
    }
    const auto plain = [&](float x, float y, float depth_z, const glm::vec3& normal) {
        return shapes::Vertex{.position_m = {x, y, depth_z}, .normal = normal, .colour = red};
    };
    for (const float side : {-1.0F, 1.0F}) {
        const float x = side < 0 ? left : right;
        const float near_z = side < 0 ? back_z : z;
        const float far_z = side < 0 ? z : back_z;
        const glm::vec3 normal{side, 0, 0};
        shapes::append_quad(mesh, {plain(x, 0, near_z, normal), plain(x, 0, far_z, normal),
                                   plain(x, height_m, far_z, normal),
                                   plain(x, height_m, near_z, normal)});
    }
    const glm::vec3 away{0, 0, -1};
    shapes::append_quad(mesh, {plain(right, 0, back_z, away), plain(left, 0, back_z, away),
                               plain(left, height_m, back_z, away),
                               plain(right, height_m, back_z, away)});
}

void append_coping(shapes::Mesh& mesh, float left, float right, float front_z, float height_m) {
    const float length_m = std::max(0.6F, (right - left) / 40);
    const int first = static_cast<int>(std::floor(left / length_m));
    const int last = static_cast<int>(std::ceil(right / length_m));
    // Mortar closes the joints between the stones.
    const glm::vec3 bed_m{0, 0, 0.008F};
    shapes::append(
        mesh,
        shapes::bevelled_box(
            glm::vec3{left, height_m + 0.008F, front_z - thickness_m} - bed_m,
            glm::vec3{right, height_m + coping_height_m - 0.010F, front_z + overhang_m} - bed_m,
            0.004F, 0.6F * mortar));
    for (int i = first; i < last; ++i) {
        Chance chance{67, i};
        const float x = static_cast<float>(i) * length_m;
        shapes::append(
            mesh, shapes::bevelled_box(
                      {x + 0.003F, height_m, front_z - thickness_m - overhang_m},
                      {x + length_m - 0.003F, height_m + coping_height_m, front_z + overhang_m},
                      0.012F, stone * (1 + 0.12F * chance.bell())));
    }
}

}  // namespace

std::vector<Piece> build_wall(double back_m, const Reach& reach) {
    const float top_m = sensible_height_m(reach, 1.8F, 2.4F);
    const int courses = static_cast<int>(std::lround((top_m - coping_height_m) / course_m));
    const float height_m = static_cast<float>(courses) * course_m;
    const float front_z = -static_cast<float>(back_m);

    // A wall seen from far away is long; there one modelled brick stands for several.
    const float width_m = static_cast<float>(reach.right_m - reach.left_m);
    const int merged = std::max(
        1, static_cast<int>(std::ceil(static_cast<float>(courses) * width_m /
                                      ((brick_m + joint_m) * static_cast<float>(most_bricks)))));
    const float pitch_m = static_cast<float>(merged) * (brick_m + joint_m);
    const int first = static_cast<int>(std::floor(static_cast<float>(reach.left_m) / pitch_m));
    const int last = static_cast<int>(std::ceil(static_cast<float>(reach.right_m) / pitch_m));
    const float left = static_cast<float>(first) * pitch_m;
    const float right = static_cast<float>(last) * pitch_m;

    Piece wall;
    append_core(wall.mesh, left, right, front_z, height_m);
    for (int course = 0; course < courses; ++course) {
        const bool is_shifted = course % 2 != 0;
        for (int i = first; i < last + (is_shifted ? 1 : 0); ++i) {
            Chance chance{66, course, i};
            const float x = (static_cast<float>(i) - (is_shifted ? 0.5F : 0.0F)) * pitch_m;
            const float y = static_cast<float>(course) * course_m;
            append_brick(wall.mesh, {std::max(x, left) + joint_m / 2, y + joint_m / 2},
                         {std::min(x + pitch_m, right) - joint_m / 2, y + course_m - joint_m / 2},
                         front_z, height_m, chance);
        }
    }
    append_coping(wall.mesh, left, right, front_z, height_m);
    return one(std::move(wall));
}

}  // namespace backrow::setting
