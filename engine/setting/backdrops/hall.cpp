#include "setting/backdrops/backdrops.h"

#include "setting/backdrops/panels.h"
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

// A hall seen through its wide opening: floor, ceiling beams, columns and wall lamps at growing
// distances, tall windows in both long walls and in the far one.
constexpr float half_width_m = 5.6F;
constexpr float height_m = 5.4F;
constexpr int bays = 6;
constexpr float bay_m = 3.2F;
constexpr float length_m = static_cast<float>(bays) * bay_m;
constexpr float column_in_m = 1.15F;  // How far columns stand from the long walls.
constexpr float tile_m = 0.8F;
constexpr float floor_up_m = 0.012F;

constexpr float sill_m = 0.95F;
constexpr float window_top_m = 4.35F;
constexpr float window_half_m = 0.78F;
constexpr float reveal_m = 0.28F;

constexpr glm::vec3 stucco{0.440F, 0.405F, 0.340F};
constexpr glm::vec3 panelling{0.215F, 0.190F, 0.150F};
constexpr glm::vec3 stone{0.450F, 0.420F, 0.360F};
constexpr glm::vec3 timber{0.130F, 0.090F, 0.058F};
constexpr glm::vec3 pale_tile{0.235F, 0.205F, 0.165F};
constexpr glm::vec3 dark_tile{0.105F, 0.078F, 0.060F};
// Daylight outside is a stop or two over what the room is exposed for.
constexpr glm::vec3 daylight{2.5F, 2.75F, 3.1F};
constexpr glm::vec3 lamplight{26.0F, 17.0F, 8.0F};

struct Hall {
    Piece solid{.material = {.lit = false}};  // In the light of its own windows.
    Piece panes{.material = {.base_colour = glm::vec3{0}, .emission = daylight}};
    Piece lamps{.material = {.base_colour = glm::vec3{0}, .emission = lamplight},
                .is_highlight = true};
};

// Rooms are darker under the ceiling and in the corners of the floor.
Paint on_wall(const glm::vec3& colour, float up_m) {
    return {colour,
            0.46F + 0.14F * smooth_step(0, 1.5F, up_m) - 0.16F * smooth_step(3.4F, height_m, up_m)};
}

void append_wall(shapes::Mesh& mesh, const UprightFace& wall, const glm::vec2& low_m,
                 const glm::vec2& high_m) {
    const int rows = std::max(1, static_cast<int>((high_m.y - low_m.y) / 0.8F));
    append_panel(mesh, wall.panel(low_m, high_m), 1, rows, [](const glm::vec3& at) {
        const bool is_panelled = at.y < sill_m - 0.02F;
        return on_wall(is_panelled ? panelling : stucco, at.y);
    });
}

// One bay of a long wall, middle_m along it: wall round a window of two by six panes.
void append_window(Hall& hall, const UprightFace& wall, float middle_m, float from_m, float to_m) {
    const float left = middle_m - window_half_m;
    const float right = middle_m + window_half_m;
    shapes::Mesh& solid = hall.solid.mesh;
    append_wall(solid, wall, {from_m, 0}, {to_m, sill_m});
    append_wall(solid, wall, {from_m, sill_m}, {left, window_top_m});
    append_wall(solid, wall, {right, sill_m}, {to_m, window_top_m});
    append_wall(solid, wall, {from_m, window_top_m}, {to_m, height_m});

    const glm::vec3 up{0, window_top_m - sill_m, 0};
    const glm::vec3 across = 2 * window_half_m * wall.along;
    const Paint bright{0.97F * stucco / 0.44F * 0.62F, 1.0F};
    const glm::vec3 inward = -reveal_m * wall.out();
    append_panel(solid, {wall.at({left, sill_m}), inward, up}, bright);
    append_panel(solid, {wall.at({right, sill_m}, reveal_m), -inward, up}, bright);
    append_panel(solid, {wall.at({left, sill_m}), across, inward}, bright);
    append_panel(solid, {wall.at({left, window_top_m}, reveal_m), across, -inward},
                 {bright.colour, 0.5F});

    append_panel(hall.panes.mesh, wall.panel({left, sill_m}, {right, window_top_m}, reveal_m),
                 {glm::vec3{1}});
    const Paint bar{{0.30F, 0.285F, 0.25F}, 0.5F};
    const float before_m = reveal_m - 0.03F;
    const auto strip = [&](const glm::vec2& low_m, const glm::vec2& high_m) {
        append_panel(solid, wall.panel(low_m, high_m, before_m), bar);
    };
    strip({middle_m - 0.03F, sill_m}, {middle_m + 0.03F, window_top_m});
    for (int i = 0; i <= 6; ++i) {
        const float y = sill_m + (window_top_m - sill_m) * static_cast<float>(i) / 6;
        strip({left, y - 0.022F}, {right, y + 0.022F});
    }
}

void append_far_wall(Hall& hall, float far_z) {
    const UprightFace wall{{-half_width_m, 0, far_z}};
    constexpr int windows = 3;
    constexpr float share_m = 2 * half_width_m / windows;
    for (int i = 0; i < windows; ++i) {
        const float from = share_m * static_cast<float>(i);
        append_window(hall, wall, from + share_m / 2, from, from + share_m);
    }
}

void append_long_walls(Hall& hall, float front_z) {
    const UprightFace left{{-half_width_m, 0, front_z}, {0, 0, -1}};
    const UprightFace right{{half_width_m, 0, front_z - length_m}, {0, 0, 1}};
    for (int bay = 0; bay < bays; ++bay) {
        const float from = bay_m * static_cast<float>(bay);
        append_window(hall, left, from + bay_m / 2, from, from + bay_m);
        append_window(hall, right, from + bay_m / 2, from, from + bay_m);
    }
}

// Tiles laid chequerwise, lighter where a window throws its daylight on them.
void append_floor(shapes::Mesh& mesh, float front_z) {
    const int columns = static_cast<int>(2 * half_width_m / tile_m);
    const int rows = static_cast<int>(length_m / tile_m);
    for (int row = 0; row < rows; ++row) {
        for (int column = 0; column < columns; ++column) {
            Chance chance{191, row, column};
            const float x = -half_width_m + static_cast<float>(column) * tile_m;
            const float z = front_z - static_cast<float>(row) * tile_m;
            const glm::vec3 tone =
                ((row + column) % 2 == 0 ? pale_tile : dark_tile) * chance.between(0.9F, 1.1F);
            const auto paint_at = [&](const glm::vec3& at) {
                const float to_wall_m = half_width_m - std::abs(at.x);
                const float along = std::abs(std::remainder(front_z - at.z - bay_m / 2, bay_m));
                const float pool =
                    smooth_step(3.2F, 0.8F, to_wall_m) * smooth_step(1.3F, 0.5F, along);
                const float far_pool = smooth_step(7.0F, 0.5F, at.z - (front_z - length_m));
                return Paint{glm::min(tone * (1 + 0.5F * pool + 0.5F * far_pool), 1.0F),
                             0.5F + 0.3F * pool + 0.2F * far_pool};
            };
            append_panel(mesh,
                         {{x + 0.004F, floor_up_m, z - 0.004F},
                          {tile_m - 0.008F, 0, 0},
                          {0, 0, -(tile_m - 0.008F)}},
                         1, 1, paint_at);
        }
    }
    // The bed under the tiles shows in their joints.
    append_panel(mesh,
                 {{-half_width_m, floor_up_m - 0.006F, front_z},
                  {2 * half_width_m, 0, 0},
                  {0, 0, -length_m}},
                 {0.7F * dark_tile, 0.4F});
}

void append_ceiling(shapes::Mesh& mesh, float front_z) {
    append_panel(
        mesh,
        {{-half_width_m, height_m, front_z - length_m}, {2 * half_width_m, 0, 0}, {0, 0, length_m}},
        1, bays, [](const glm::vec3&) {
            return Paint{stucco, 0.34F};
        });
    for (int i = 0; i <= bays; ++i) {
        const float z = front_z - 0.4F - bay_m * static_cast<float>(i);
        append_box(mesh, {-half_width_m, height_m - 0.34F, z - 0.12F},
                   {half_width_m, height_m - 0.001F, z + 0.12F}, {timber, 0.4F});
        append_panel(
            mesh,
            {{-half_width_m, height_m - 0.34F, z - 0.12F}, {2 * half_width_m, 0, 0}, {0, 0, 0.24F}},
            {0.8F * timber, 0.3F});
    }
}

void append_column(Hall& hall, float x, float z) {
    const auto ring = [&](float up_m, float radius_m) {
        return shapes::Ring{{x, up_m, z}, radius_m};
    };
    const std::array shaft{ring(floor_up_m, 0.30F), ring(0.22F, 0.30F), ring(0.30F, 0.215F),
                           ring(2.2F, 0.21F),       ring(4.55F, 0.18F), ring(4.70F, 0.27F),
                           ring(5.06F, 0.30F)};
    shapes::Mesh column = shapes::tube(shaft, 14, stone);
    for (shapes::Vertex& vertex : column.vertices)
        vertex.ambient_visibility = on_wall(stone, vertex.position_m.y).ambient_visibility + 0.1F;
    shapes::append(hall.solid.mesh, column);
    // A wall lamp on the side of the column that faces the nave.
    const float inner = x < 0 ? 1.0F : -1.0F;
    const glm::vec3 lamp_m{x + inner * 0.36F, 2.45F, z + 0.10F};
    append_box(hall.solid.mesh, {lamp_m.x - 0.05F, 2.27F, lamp_m.z - 0.05F},
               {lamp_m.x + 0.05F, 2.36F, lamp_m.z + 0.05F}, {timber, 0.6F});
    shapes::append(hall.lamps.mesh,
                   shapes::rounded(shapes::icosahedron(lamp_m, 0.055F, glm::vec3{1}), lamp_m));
}

// The room that one looks out of: piers beside the opening and a lintel over it.
void append_opening(shapes::Mesh& mesh, const Reach& reach, float front_z) {
    const float left = std::min(static_cast<float>(reach.left_m), -half_width_m) - 0.5F;
    const float right = std::max(static_cast<float>(reach.right_m), half_width_m) + 0.5F;
    const float top_m = std::max(static_cast<float>(reach.top_m), height_m) + 0.5F;
    const UprightFace wall{{0, 0, front_z}};
    const auto part = [&](const glm::vec2& low_m, const glm::vec2& high_m) {
        const int columns = std::clamp(static_cast<int>((high_m.x - low_m.x) / 0.8F), 1, 40);
        const int rows = std::clamp(static_cast<int>((high_m.y - low_m.y) / 0.8F), 1, 20);
        append_panel(mesh, wall.panel(low_m, high_m), columns, rows, [](const glm::vec3& at) {
            const float cloud = rough_noise(glm::vec2{at.x, at.y} / 1.3F, 194);
            return Paint{stucco * (0.92F + 0.16F * cloud),
                         0.5F + 0.1F * smooth_step(0, 1.4F, at.y)};
        });
    };
    part({left, 0}, {-half_width_m, height_m - 0.5F});
    part({half_width_m, 0}, {right, height_m - 0.5F});
    part({left, height_m - 0.5F}, {right, top_m});
    for (const float side : {-1.0F, 1.0F}) {
        append_box(mesh, {side * half_width_m - 0.16F, 0, front_z - 0.3F},
                   {side * half_width_m + 0.16F, height_m - 0.5F, front_z + 0.05F}, {stone, 0.6F});
    }
    append_box(mesh, {-half_width_m - 0.3F, height_m - 0.62F, front_z - 0.3F},
               {half_width_m + 0.3F, height_m - 0.44F, front_z + 0.06F}, {stone, 0.6F});
    append_panel(mesh,
                 {{-half_width_m, height_m - 0.62F, front_z - 0.3F},
                  {2 * half_width_m, 0, 0},
                  {0, 0, 0.36F}},
                 {stone, 0.35F});
}

// What the windows of the long walls and of the far one throw on a place, and the room throws back;
// 1 is about what stands well lit between two windows.
float window_light(const glm::vec3& at, const glm::vec3& normal, float front_z) {
    constexpr float middle_up_m = (sill_m + window_top_m) / 2;
    const float along_z = std::clamp(at.z, front_z - length_m + 1, front_z - 1);
    const float along_x = std::clamp(at.x, 1 - half_width_m, half_width_m - 1);
    const std::array windows{glm::vec3{-half_width_m, middle_up_m, along_z},
                             glm::vec3{half_width_m, middle_up_m, along_z},
                             glm::vec3{along_x, middle_up_m, front_z - length_m}};
    float light = 0.32F;
    for (const glm::vec3& window : windows) {
        const glm::vec3 way = window - at;
        const float square_m2 = std::max(glm::dot(way, way), 1.0F);
        const float facing = glm::dot(normal, way) / std::sqrt(square_m2);
        light += 0.85F * std::max(0.12F + 0.88F * facing, 0.0F) / (1 + square_m2 / 22);
    }
    return light;
}

// Painted rather than lit: the light of a scene comes from outside of the hall.
void paint_light(shapes::Mesh& mesh, float front_z) {
    constexpr float usual_ambient_visibility = 0.5F;
    for (shapes::Vertex& vertex : mesh.vertices) {
        const float light = window_light(vertex.position_m, vertex.normal, front_z);
        vertex.colour =
            glm::min(vertex.colour * light * (vertex.ambient_visibility / usual_ambient_visibility),
                     glm::vec3{1});
        vertex.ambient_visibility = 1;
    }
}

}  // namespace

std::vector<Piece> build_hall(double back_m, const Reach& reach) {
    const float front_z = -static_cast<float>(back_m);
    Hall hall;
    append_floor(hall.solid.mesh, front_z);
    append_ceiling(hall.solid.mesh, front_z);
    append_long_walls(hall, front_z);
    append_far_wall(hall, front_z - length_m);
    for (int i = 1; i < bays; ++i) {
        const float z = front_z - bay_m * static_cast<float>(i);
        append_column(hall, -half_width_m + column_in_m, z);
        append_column(hall, half_width_m - column_in_m, z);
    }
    paint_light(hall.solid.mesh, front_z);
    Piece opening;
    append_opening(opening.mesh, reach, front_z);

    std::vector<Piece> pieces = one(std::move(opening));
    pieces.push_back(std::move(hall.solid));
    pieces.push_back(std::move(hall.panes));
    pieces.push_back(std::move(hall.lamps));
    return pieces;
}

}  // namespace backrow::setting
