#include "setting/backdrops/backdrops.h"

#include "setting/backdrops/house_fronts.h"
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

// A street that leads away from the camera, in the evening: houses on both sides, some windows lit,
// and lamps at growing distances.
constexpr float half_width_m = 4.7F;  // From the middle to the house fronts.
constexpr float half_road_m = 2.9F;
constexpr float kerb_m = 0.11F;
constexpr float length_m = 118.0F;
// Behind the backdrop's line.
constexpr std::array<float, 9> lamps_behind_m{1.6F,  6.5F,  12.0F, 19.0F, 29.0F,
                                              42.0F, 60.0F, 82.0F, 108.0F};
constexpr float lamp_up_m = 3.55F;
constexpr float lamp_across_m = 3.25F;

constexpr glm::vec3 asphalt{0.050F, 0.050F, 0.054F};
constexpr glm::vec3 flags{0.135F, 0.128F, 0.118F};
constexpr glm::vec3 iron{0.020F, 0.021F, 0.022F};
constexpr glm::vec3 stone{0.230F, 0.215F, 0.190F};
constexpr glm::vec3 lamplight{34.0F, 21.5F, 9.5F};

struct Street {
    Piece ground;
    HouseFronts houses;
    Piece lamps{.material = {.base_colour = glm::vec3{0}, .emission = lamplight},
                .is_highlight = true};
    float front_z = 0;
};

glm::vec3 lamp_place(int number, float front_z) {
    const float side = number % 2 == 0 ? 1.0F : -1.0F;
    return {side * lamp_across_m, lamp_up_m,
            front_z - lamps_behind_m[static_cast<std::size_t>(number)]};
}

// The warm pool of the lamps near by, painted on; what they throw on people is not reckoned.
Paint in_lamplight(const glm::vec3& colour, const glm::vec3& at, float ambient_visibility,
                   float front_z) {
    float near_by = 0;
    for (int i = 0; i < static_cast<int>(lamps_behind_m.size()); ++i) {
        const glm::vec3 away = at - lamp_place(i, front_z);
        near_by += 1 / (1 + 0.5F * glm::dot(away, away));
    }
    const glm::vec3 warm{1.0F, 0.66F, 0.32F};
    const float pool = std::min(7.0F * near_by, 3.2F);
    return {glm::min(colour * (glm::vec3{1} + pool * warm), 1.0F),
            std::min(ambient_visibility + 0.16F * pool, 1.0F)};
}

// Down both sides of the street, then across its end, then left and right of its mouth.
void append_houses(Street& street, const Reach& reach) {
    const float front_z = street.front_z;
    for (int side = 0; side < 2; ++side) {
        int number = 0;
        for (float along = 0; along < length_m; ++number) {
            Chance chance{207, side, number};
            const float width_m = std::min(chance.between(5.2F, 8.4F), length_m - along + 1);
            const UprightFace face =
                side == 0
                    ? UprightFace{{-half_width_m, kerb_m, front_z - along}, {0, 0, -1}}
                    : UprightFace{{half_width_m, kerb_m, front_z - along - width_m}, {0, 0, 1}};
            append_house(street.houses, house_at(face, width_m, 100 * side + number));
            along += width_m;
        }
    }
    for (int i = 0; i < 2; ++i) {
        const float left = -9.0F + 9.0F * static_cast<float>(i);
        append_house(street.houses, house_at({{left, 0, front_z - length_m - 3}}, 9.0F, 300 + i));
    }
    const auto beside = [&](float from, float to, int key) {
        const int houses = std::clamp(static_cast<int>(std::lround((to - from) / 7)), 1, 9);
        const float width_m = (to - from) / static_cast<float>(houses);
        for (int i = 0; i < houses; ++i)
            append_house(
                street.houses,
                house_at({{from + width_m * static_cast<float>(i), 0, front_z}}, width_m, key + i));
    };
    beside(std::min(static_cast<float>(reach.left_m), -half_width_m - 5) - 1, -half_width_m, 400);
    beside(half_width_m, std::max(static_cast<float>(reach.right_m), half_width_m + 5) + 1, 500);
}

void append_ground(Street& street) {
    const float front_z = street.front_z;
    const auto strip = [&](float left, float right, float up_m, const glm::vec3& colour,
                           int columns, float gloss_share) {
        float from = 0;
        for (float step = 0.8F; from < length_m; step *= 1.09F) {
            const float to = std::min(from + step, length_m);
            append_panel(street.ground.mesh,
                         {{left, up_m, front_z - from}, {right - left, 0, 0}, {0, 0, from - to}},
                         columns, 1, [&](const glm::vec3& at) {
                             const float patch = rough_noise(glm::vec2{at.x, at.z} / 2.3F, 211);
                             return in_lamplight(colour * (0.75F + 0.5F * patch) +
                                                     gloss_share * glm::vec3{0.05F},
                                                 {at.x, 0.6F, at.z}, 0.7F, front_z);
                         });
            from = to;
        }
    };
    strip(-half_road_m, half_road_m, 0.014F, asphalt, 7, 0.3F);
    strip(-half_width_m, -half_road_m - 0.16F, kerb_m, flags, 3, 0);
    strip(half_road_m + 0.16F, half_width_m, kerb_m, flags, 3, 0);
    for (const float side : {-1.0F, 1.0F}) {
        const float from = side < 0 ? -half_road_m - 0.16F : half_road_m;
        append_box(street.ground.mesh, {from, 0, front_z - length_m},
                   {from + 0.16F, kerb_m + 0.002F, front_z}, {stone, 0.7F});
        append_box(street.ground.mesh, {side < 0 ? -half_width_m : half_road_m, 0, front_z - 0.14F},
                   {side < 0 ? -half_road_m : half_width_m, kerb_m + 0.003F, front_z + 0.02F},
                   {stone, 0.7F});
    }
}

void append_lamps(Street& street) {
    for (int i = 0; i < static_cast<int>(lamps_behind_m.size()); ++i) {
        const glm::vec3 lamp_m = lamp_place(i, street.front_z);
        const auto ring = [&](float up_m, float radius_m) {
            return shapes::Ring{{lamp_m.x, up_m, lamp_m.z}, radius_m};
        };
        const std::array post{ring(kerb_m, 0.11F), ring(0.75F, 0.10F), ring(0.80F, 0.055F),
                              ring(lamp_up_m - 0.24F, 0.04F), ring(lamp_up_m - 0.15F, 0.10F)};
        shapes::append(street.ground.mesh, shapes::tube(post, 8, iron));
        const std::array cap{ring(lamp_up_m + 0.15F, 0.15F), ring(lamp_up_m + 0.30F, 0.03F)};
        shapes::append(street.ground.mesh, shapes::tube(cap, 8, iron));
        shapes::append(street.lamps.mesh,
                       shapes::rounded(shapes::icosahedron(lamp_m, 0.12F, glm::vec3{1}), lamp_m));
    }
}

}  // namespace

std::vector<Piece> build_street(double back_m, const Reach& reach) {
    Street street;
    street.front_z = -static_cast<float>(back_m);
    append_ground(street);
    append_lamps(street);
    append_houses(street, reach);
    for (shapes::Vertex& vertex : street.houses.solid.vertices) {
        const Paint paint = in_lamplight(vertex.colour, vertex.position_m,
                                         vertex.ambient_visibility, street.front_z);
        vertex.colour = paint.colour;
        vertex.ambient_visibility = paint.ambient_visibility;
    }

    std::vector<Piece> pieces = one(std::move(street.ground));
    pieces.push_back({.mesh = std::move(street.houses.solid)});
    pieces.push_back({.mesh = std::move(street.houses.glass), .material = {.gloss = 0.2F}});
    for (std::size_t i = 0; i < room_light.size(); ++i)
        pieces.push_back({.mesh = std::move(street.houses.lit[i]),
                          .material = {.base_colour = glm::vec3{0}, .emission = room_light[i]}});
    pieces.push_back(std::move(street.lamps));
    return pieces;
}

}  // namespace backrow::setting
