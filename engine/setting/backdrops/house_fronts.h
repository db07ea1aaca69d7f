#pragma once

// Fronts of town houses in the evening: storeys of sash windows, some of them lit, a door, a roof.

#include "setting/backdrops/panels.h"

#include "shapes/mesh.h"

#include <glm/vec3.hpp>

#include <array>

namespace backrow::setting {

/// What a lit window sends out, linear: behind curtains, half bright, and bare. The lamp in the
/// room is not seen.
inline constexpr std::array<glm::vec3, 3> room_light{
    {{0.85F, 0.50F, 0.21F}, {1.7F, 1.06F, 0.50F}, {3.0F, 2.1F, 1.15F}}};

/// Houses by what is drawn alike.
struct HouseFronts {
    shapes::Mesh solid;
    shapes::Mesh glass;                               ///< Of dark windows.
    std::array<shapes::Mesh, room_light.size()> lit;  ///< Of lit ones, as room_light has them.
};

struct House {
    UprightFace face;
    float width_m = 6;
    int storeys = 3;
    int key = 0;  ///< Chance goes by it.
    glm::vec3 colour{1};
};

/// A house with the colour and storeys that fall to its key.
[[nodiscard]] House house_at(const UprightFace& face, float width_m, int key);

void append_house(HouseFronts& fronts, const House& house);

}  // namespace backrow::setting
