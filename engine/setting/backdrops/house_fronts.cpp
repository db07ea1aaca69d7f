#include "setting/backdrops/house_fronts.h"

#include "setting/chance.h"

#include <glm/common.hpp>

#include <algorithm>
#include <cmath>

namespace backrow::setting {
namespace {

constexpr float storey_m = 3.0F;
constexpr float reveal_m = 0.16F;

constexpr glm::vec3 slate{0.045F, 0.048F, 0.056F};
constexpr glm::vec3 stone{0.230F, 0.215F, 0.190F};
constexpr std::array<glm::vec3, 6> renders{{{0.155F, 0.072F, 0.050F},
                                            {0.250F, 0.225F, 0.175F},
                                            {0.185F, 0.125F, 0.080F},
                                            {0.130F, 0.150F, 0.155F},
                                            {0.220F, 0.165F, 0.130F},
                                            {0.120F, 0.090F, 0.075F}}};
constexpr std::array<glm::vec3, 4> doors{{{0.030F, 0.062F, 0.050F},
                                          {0.125F, 0.025F, 0.022F},
                                          {0.026F, 0.036F, 0.070F},
                                          {0.060F, 0.040F, 0.026F}}};

void append_masonry(HouseFronts& fronts, const House& house, const glm::vec2& low_m,
                    const glm::vec2& high_m) {
    const int columns = std::max(1, static_cast<int>((high_m.x - low_m.x) / 1.6F));
    const int rows = std::max(1, static_cast<int>((high_m.y - low_m.y) / 1.6F));
    append_panel(fronts.solid, house.face.panel(low_m, high_m), columns, rows,
                 [&](const glm::vec3& at) {
                     const float stain = rough_noise(glm::vec2{at.x + at.z, at.y} / 1.7F, 201);
                     const float low_down = 0.24F + 0.42F * smooth_step(0, 8, at.y);
                     return Paint{house.colour * (0.78F + 0.4F * stain), low_down};
                 });
}

// A sash in its reveal: sill, four panes of one light or of a half-drawn curtain.
void append_window(HouseFronts& fronts, const House& house, const glm::vec2& low_m,
                   const glm::vec2& high_m, Chance& chance) {
    shapes::Mesh& solid = fronts.solid;
    const UprightFace& face = house.face;
    const glm::vec3 across = (high_m.x - low_m.x) * face.along;
    const glm::vec3 up{0, high_m.y - low_m.y, 0};
    const glm::vec3 inward = -reveal_m * face.out();
    const auto reveal = [&](const Panel& panel, float ambient_visibility) {
        append_panel(solid, panel, {glm::min(1.15F * house.colour, 1.0F), ambient_visibility});
    };
    reveal({face.at(low_m), inward, up}, 0.5F);
    reveal({face.at({high_m.x, low_m.y}, reveal_m), -inward, up}, 0.5F);
    reveal({face.at(low_m), across, inward}, 0.8F);
    reveal({face.at({low_m.x, high_m.y}, reveal_m), across, -inward}, 0.25F);
    append_panel(
        solid, face.panel({low_m.x - 0.06F, low_m.y - 0.11F}, {high_m.x + 0.06F, low_m.y}, -0.035F),
        {stone, 0.75F});
    append_panel(
        solid,
        face.panel({low_m.x - 0.06F, high_m.y}, {high_m.x + 0.06F, high_m.y + 0.16F}, -0.012F),
        {stone, 0.6F});

    const bool is_lit = chance.unit() < 0.46F;
    const auto strength =
        static_cast<std::size_t>(chance.unit() * static_cast<float>(room_light.size()));
    const auto pane = [&](const glm::vec2& low, const glm::vec2& high, bool curtained) {
        if (low.x >= high.x)
            return;
        shapes::Mesh& mesh = is_lit ? fronts.lit[curtained ? 0 : strength] : fronts.glass;
        append_panel(mesh, face.panel(low, high, reveal_m),
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
        face.panel({middle.x - 0.022F, low_m.y}, {middle.x + 0.022F, high_m.y}, reveal_m - 0.03F),
        frame);
    append_panel(
        solid,
        face.panel({low_m.x, middle.y - 0.03F}, {high_m.x, middle.y + 0.03F}, reveal_m - 0.03F),
        frame);
}

void append_door(HouseFronts& fronts, const House& house, const glm::vec2& low_m,
                 const glm::vec2& high_m, Chance& chance) {
    const UprightFace& face = house.face;
    const glm::vec3 leaf = doors[static_cast<std::size_t>(4 * chance.unit())];
    const float fanlight_m = high_m.y - 0.42F;
    append_panel(fronts.solid, face.panel(low_m, {high_m.x, fanlight_m}, reveal_m), {leaf, 0.5F});
    append_panel(fronts.lit[1], face.panel({low_m.x, fanlight_m}, high_m, reveal_m),
                 {glm::vec3{1}});
    for (const float side : {low_m.x - 0.1F, high_m.x})
        append_panel(fronts.solid,
                     face.panel({side, low_m.y}, {side + 0.1F, high_m.y + 0.12F}, -0.02F),
                     {stone, 0.6F});
    append_panel(
        fronts.solid,
        face.panel({low_m.x - 0.1F, high_m.y}, {high_m.x + 0.1F, high_m.y + 0.12F}, -0.02F),
        {stone, 0.6F});
}

}  // namespace

House house_at(const UprightFace& face, float width_m, int key) {
    Chance chance{205, key};
    const auto pick = static_cast<std::size_t>(chance.unit() * static_cast<float>(renders.size()));
    return {face, width_m, chance.unit() < 0.6F ? 3 : 2, key,
            renders[pick] * chance.between(0.8F, 1.15F)};
}

// Storey by storey: a band of wall, then piers and openings, then the wall over them and a cornice.
void append_house(HouseFronts& fronts, const House& house) {
    Chance chance{203, house.key};
    const int bays = std::max(2, static_cast<int>(std::lround(house.width_m / 2.1F)));
    const float bay_m = house.width_m / static_cast<float>(bays);
    const float half_m = std::min(0.26F * bay_m, 0.55F);
    const auto door_bay = static_cast<int>(chance.unit() * static_cast<float>(bays));
    for (int storey = 0; storey < house.storeys; ++storey) {
        const float floor_m = storey_m * static_cast<float>(storey);
        const float low = floor_m + 0.85F;
        const float high = floor_m + 2.45F;
        append_masonry(fronts, house, {0, high}, {house.width_m, floor_m + storey_m});
        float from = 0;
        for (int bay = 0; bay < bays; ++bay) {
            const float middle = bay_m * (static_cast<float>(bay) + 0.5F);
            const bool is_door = storey == 0 && bay == door_bay;
            const float left = middle - (is_door ? 0.5F : half_m);
            const float right = middle + (is_door ? 0.5F : half_m);
            append_masonry(fronts, house, {from, floor_m}, {left, high});
            if (is_door) {
                append_door(fronts, house, {left, 0}, {right, high}, chance);
            } else {
                append_masonry(fronts, house, {left, floor_m}, {right, low});
                append_window(fronts, house, {left, low}, {right, high}, chance);
            }
            from = right;
        }
        append_masonry(fronts, house, {from, floor_m}, {house.width_m, high});
    }
    const float top_m = storey_m * static_cast<float>(house.storeys);
    append_panel(fronts.solid, house.face.panel({0, top_m}, {house.width_m, top_m + 0.28F}, -0.14F),
                 {stone, 0.8F});
    // A slate roof leans back behind the gutter.
    const glm::vec3 back = -2.6F * house.face.out();
    append_panel(fronts.solid,
                 {house.face.at({0, top_m + 0.28F}, -0.14F), house.width_m * house.face.along,
                  back + glm::vec3{0, 1.9F, 0}},
                 {slate, 1.0F});
    for (const float x : {0.5F, house.width_m - 0.5F}) {
        const glm::vec3 foot = house.face.at({x, top_m}, 2.2F);
        append_box(fronts.solid, foot - glm::vec3{0.35F, 0, 0.35F},
                   foot + glm::vec3{0.35F, 2.9F, 0.35F}, {0.7F * house.colour, 0.9F});
    }
}

}  // namespace backrow::setting
