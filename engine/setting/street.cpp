#include "setting/backdrops.h"

#include "setting/chance.h"
#include "setting/panels.h"
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
constexpr float storey_m = 3.0F;
constexpr float reveal_m = 0.16F;
// Behind the backdrop's line.
constexpr std::array<float, 9> lamps_behind_m{1.6F,  6.5F,  12.0F, 19.0F, 29.0F,
                                              42.0F, 60.0F, 82.0F, 108.0F};
constexpr float lamp_up_m = 3.55F;
constexpr float lamp_across_m = 3.25F;

constexpr glm::vec3 asphalt{0.050F, 0.050F, 0.054F};
constexpr glm::vec3 flags{0.135F, 0.128F, 0.118F};
constexpr glm::vec3 iron{0.020F, 0.021F, 0.022F};
constexpr glm::vec3 slate{0.045F, 0.048F, 0.056F};
constexpr glm::vec3 stone{0.230F, 0.215F, 0.190F};
constexpr std::array<glm::vec3, 6> fronts{{{0.155F, 0.072F, 0.050F},
                                           {0.250F, 0.225F, 0.175F},
                                           {0.185F, 0.125F, 0.080F},
                                           {0.130F, 0.150F, 0.155F},
                                           {0.220F, 0.165F, 0.130F},
                                           {0.120F, 0.090F, 0.075F}}};
constexpr std::array<glm::vec3, 4> doors{{{0.030F, 0.062F, 0.050F},
                                          {0.125F, 0.025F, 0.022F},
                                          {0.026F, 0.036F, 0.070F},
                                          {0.060F, 0.040F, 0.026F}}};
// Lit rooms seen through curtains, and bare; the lamps are sources themselves.
constexpr std::array<glm::vec3, 3> rooms{
    {{0.85F, 0.50F, 0.21F}, {1.7F, 1.06F, 0.50F}, {3.0F, 2.1F, 1.15F}}};
constexpr glm::vec3 lamplight{34.0F, 21.5F, 9.5F};

struct Street {
    Piece solid;
    Piece glass{.material = {.gloss = 0.2F}};
    std::array<Piece, rooms.size()> lit;
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
Paint in_lamplight(const glm::vec3& colour, const glm::vec3& at, float openness, float front_z) {
    float near_by = 0;
    for (int i = 0; i < static_cast<int>(lamps_behind_m.size()); ++i) {
        const glm::vec3 away = at - lamp_place(i, front_z);
        near_by += 1 / (1 + 0.5F * glm::dot(away, away));
    }
    const glm::vec3 warm{1.0F, 0.66F, 0.32F};
    const float pool = std::min(7.0F * near_by, 3.2F);
    return {glm::min(colour * (glm::vec3{1} + pool * warm), 1.0F),
            std::min(openness + 0.16F * pool, 1.0F)};
}

// A front as whoever looks at it sees it: along to the right, up, and behind its face.
struct Front {
    glm::vec3 foot_m;
    glm::vec3 along{1, 0, 0};

    [[nodiscard]] glm::vec3 at(const glm::vec2& place, float behind_m = 0) const {
        const glm::vec3 out{-along.z, 0, along.x};  // along × up
        return foot_m + place.x * along + glm::vec3{0, place.y, 0} - behind_m * out;
    }
    [[nodiscard]] Panel panel(const glm::vec2& low_m, const glm::vec2& high_m,
                              float behind_m = 0) const {
        return {at(low_m, behind_m), (high_m.x - low_m.x) * along, {0, high_m.y - low_m.y, 0}};
    }
};

struct House {
    Front front;
    float width_m;
    int storeys;
    int key;
    glm::vec3 colour;
};

void append_masonry(Street& street, const House& house, const glm::vec2& low_m,
                    const glm::vec2& high_m) {
    const int columns = std::max(1, static_cast<int>((high_m.x - low_m.x) / 1.6F));
    const int rows = std::max(1, static_cast<int>((high_m.y - low_m.y) / 1.6F));
    append_panel(street.solid.mesh, house.front.panel(low_m, high_m), columns, rows,
                 [&](const glm::vec3& at) {
                     const float stain = rough_noise(glm::vec2{at.x + at.z, at.y} / 1.7F, 201);
                     const float low_down = 0.24F + 0.42F * smooth_step(0, 8, at.y);
                     return in_lamplight(house.colour * (0.78F + 0.4F * stain), at, low_down,
                                         street.front_z);
                 });
}

// A sash in its reveal: sill, four panes of one light or of a half-drawn curtain.
void append_window(Street& street, const House& house, const glm::vec2& low_m,
                   const glm::vec2& high_m, Chance& chance) {
    shapes::Mesh& solid = street.solid.mesh;
    const Front& front = house.front;
    const glm::vec3 across = (high_m.x - low_m.x) * front.along;
    const glm::vec3 up{0, high_m.y - low_m.y, 0};
    const glm::vec3 inward = front.at({0, 0}, reveal_m) - front.at({0, 0});
    const auto reveal = [&](const Panel& panel, float openness) {
        append_panel(solid, panel, {glm::min(1.15F * house.colour, 1.0F), openness});
    };
    reveal({front.at(low_m), inward, up}, 0.5F);
    reveal({front.at({high_m.x, low_m.y}, reveal_m), -inward, up}, 0.5F);
    reveal({front.at(low_m), across, inward}, 0.8F);
    reveal({front.at({low_m.x, high_m.y}, reveal_m), across, -inward}, 0.25F);
    append_panel(
        solid,
        front.panel({low_m.x - 0.06F, low_m.y - 0.11F}, {high_m.x + 0.06F, low_m.y}, -0.035F),
        {stone, 0.75F});
    append_panel(
        solid,
        front.panel({low_m.x - 0.06F, high_m.y}, {high_m.x + 0.06F, high_m.y + 0.16F}, -0.012F),
        {stone, 0.6F});

    const bool is_lit = chance.unit() < 0.46F;
    const auto strength =
        static_cast<std::size_t>(chance.unit() * static_cast<float>(rooms.size()));
    const auto pane = [&](const glm::vec2& low, const glm::vec2& high, bool curtained) {
        if (low.x >= high.x)
            return;
        shapes::Mesh& mesh = is_lit ? street.lit[curtained ? 0 : strength].mesh : street.glass.mesh;
        append_panel(mesh, front.panel(low, high, reveal_m),
                     is_lit ? Paint{glm::vec3{1}} : Paint{{0.055F, 0.062F, 0.080F}, 0.7F});
    };
    const float drawn_m = is_lit ? chance.between(0.0F, 0.45F) * (high_m.x - low_m.x) : 0.0F;
    pane({low_m.x, low_m.y}, {low_m.x + drawn_m, high_m.y}, true);
    pane({low_m.x + drawn_m, low_m.y}, {high_m.x - drawn_m, high_m.y}, false);
    pane({high_m.x - drawn_m, low_m.y}, high_m, true);
    const Paint frame{{0.30F, 0.29F, 0.27F}, 0.5F};
    const glm::vec2 middle = (low_m + high_m) / 2.0F;
    append_panel(
        solid,
        front.panel({middle.x - 0.022F, low_m.y}, {middle.x + 0.022F, high_m.y}, reveal_m - 0.03F),
        frame);
    append_panel(
        solid,
        front.panel({low_m.x, middle.y - 0.03F}, {high_m.x, middle.y + 0.03F}, reveal_m - 0.03F),
        frame);
}

void append_door(Street& street, const House& house, const glm::vec2& low_m,
                 const glm::vec2& high_m, Chance& chance) {
    const Front& front = house.front;
    const glm::vec3 leaf = doors[static_cast<std::size_t>(4 * chance.unit())];
    const float fanlight_m = high_m.y - 0.42F;
    append_panel(street.solid.mesh, front.panel(low_m, {high_m.x, fanlight_m}, reveal_m),
                 {leaf, 0.5F});
    append_panel(street.lit[1].mesh, front.panel({low_m.x, fanlight_m}, high_m, reveal_m),
                 {glm::vec3{1}});
    for (const float side : {low_m.x - 0.1F, high_m.x})
        append_panel(street.solid.mesh,
                     front.panel({side, low_m.y}, {side + 0.1F, high_m.y + 0.12F}, -0.02F),
                     {stone, 0.6F});
    append_panel(
        street.solid.mesh,
        front.panel({low_m.x - 0.1F, high_m.y}, {high_m.x + 0.1F, high_m.y + 0.12F}, -0.02F),
        {stone, 0.6F});
}

// Storey by storey: a band of wall, then piers and openings, then the wall over them and a cornice.
void append_house(Street& street, const House& house) {
    Chance chance{203, house.key};
    const int bays = std::max(2, static_cast<int>(std::lround(house.width_m / 2.1F)));
    const float bay_m = house.width_m / static_cast<float>(bays);
    const float half_m = std::min(0.26F * bay_m, 0.55F);
    const auto door_bay = static_cast<int>(chance.unit() * static_cast<float>(bays));
    for (int storey = 0; storey < house.storeys; ++storey) {
        const float floor_m = storey_m * static_cast<float>(storey);
        const float low = floor_m + 0.85F;
        const float high = floor_m + 2.45F;
        append_masonry(street, house, {0, high}, {house.width_m, floor_m + storey_m});
        float from = 0;
        for (int bay = 0; bay < bays; ++bay) {
            const float middle = bay_m * (static_cast<float>(bay) + 0.5F);
            const bool is_door = storey == 0 && bay == door_bay;
            const float left = middle - (is_door ? 0.5F : half_m);
            const float right = middle + (is_door ? 0.5F : half_m);
            append_masonry(street, house, {from, floor_m}, {left, high});
            if (is_door) {
                append_door(street, house, {left, 0}, {right, high}, chance);
            } else {
                append_masonry(street, house, {left, floor_m}, {right, low});
                append_window(street, house, {left, low}, {right, high}, chance);
            }
            from = right;
        }
        append_masonry(street, house, {from, floor_m}, {house.width_m, high});
    }
    const float top_m = storey_m * static_cast<float>(house.storeys);
    append_panel(street.solid.mesh,
                 house.front.panel({0, top_m}, {house.width_m, top_m + 0.28F}, -0.14F),
                 {stone, 0.8F});
    // A slate roof leans back behind the gutter.
    const glm::vec3 back = house.front.at({0, 0}, 2.6F) - house.front.at({0, 0});
    append_panel(street.solid.mesh,
                 {house.front.at({0, top_m + 0.28F}, -0.14F), house.width_m * house.front.along,
                  back + glm::vec3{0, 1.9F, 0}},
                 {slate, 1.0F});
    for (const float x : {0.5F, house.width_m - 0.5F}) {
        const glm::vec3 foot = house.front.at({x, top_m}, 2.2F);
        append_box(street.solid.mesh, foot - glm::vec3{0.35F, 0, 0.35F},
                   foot + glm::vec3{0.35F, 2.9F, 0.35F}, {0.7F * house.colour, 0.9F});
    }
}

House house_at(const Front& front, float width_m, int key) {
    Chance chance{205, key};
    const auto pick = static_cast<std::size_t>(chance.unit() * static_cast<float>(fronts.size()));
    return {front, width_m, chance.unit() < 0.6F ? 3 : 2, key,
            fronts[pick] * chance.between(0.8F, 1.15F)};
}

// Down both sides of the street, then across its end, then left and right of its mouth.
void append_houses(Street& street, const Reach& reach) {
    const float front_z = street.front_z;
    for (int side = 0; side < 2; ++side) {
        int number = 0;
        for (float along = 0; along < length_m; ++number) {
            Chance chance{207, side, number};
            const float width_m = std::min(chance.between(5.2F, 8.4F), length_m - along + 1);
            const Front front =
                side == 0 ? Front{{-half_width_m, kerb_m, front_z - along}, {0, 0, -1}}
                          : Front{{half_width_m, kerb_m, front_z - along - width_m}, {0, 0, 1}};
            append_house(street, house_at(front, width_m, 100 * side + number));
            along += width_m;
        }
    }
    for (int i = 0; i < 2; ++i) {
        const float left = -9.0F + 9.0F * static_cast<float>(i);
        append_house(street, house_at({{left, 0, front_z - length_m - 3}}, 9.0F, 300 + i));
    }
    const auto beside = [&](float from, float to, int key) {
        const int houses = std::clamp(static_cast<int>(std::lround((to - from) / 7)), 1, 9);
        const float width_m = (to - from) / static_cast<float>(houses);
        for (int i = 0; i < houses; ++i)
            append_house(street, house_at({{from + width_m * static_cast<float>(i), 0, front_z}},
                                          width_m, key + i));
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
            append_panel(street.solid.mesh,
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
        append_box(street.solid.mesh, {from, 0, front_z - length_m},
                   {from + 0.16F, kerb_m + 0.002F, front_z}, {stone, 0.7F});
        append_box(street.solid.mesh, {side < 0 ? -half_width_m : half_road_m, 0, front_z - 0.14F},
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
        shapes::append(street.solid.mesh, shapes::tube(post, 8, iron));
        const std::array cap{ring(lamp_up_m + 0.15F, 0.15F), ring(lamp_up_m + 0.30F, 0.03F)};
        shapes::append(street.solid.mesh, shapes::tube(cap, 8, iron));
        shapes::append(street.lamps.mesh,
                       shapes::rounded(shapes::icosahedron(lamp_m, 0.12F, glm::vec3{1}), lamp_m));
    }
}

}  // namespace

std::vector<Piece> build_street(double back_m, const Reach& reach) {
    Street street;
    street.front_z = -static_cast<float>(back_m);
    append_ground(street);
    append_houses(street, reach);
    append_lamps(street);

    std::vector<Piece> pieces = one(std::move(street.solid));
    pieces.push_back(std::move(street.glass));
    for (std::size_t i = 0; i < rooms.size(); ++i) {
        street.lit[i].material = {.base_colour = glm::vec3{0}, .emission = rooms[i]};
        pieces.push_back(std::move(street.lit[i]));
    }
    pieces.push_back(std::move(street.lamps));
    return pieces;
}

}  // namespace backrow::setting
