#include "setting/place/glints.h"

#include "setting/chance.h"
#include "setting/place/sun.h"

#include "shapes/assemble.h"
#include "shapes/primitives.h"

#include <glm/trigonometric.hpp>

#include <algorithm>
#include <array>
#include <cmath>

namespace backrow::setting {
namespace {

constexpr std::array<float, 3> strengths{12, 22, 38};

constexpr float squared(float x) noexcept {
    return x * x;
}

// Facets of waves that mirror the sun into the lens. They lie in cells of equal angle and equal
// ratio of distance as seen from the lens, and are likelier under the sun.
std::array<shapes::Mesh, strengths.size()> facets(float back_m, float up_m, const Reach& reach) {
    std::array<shapes::Mesh, strengths.size()> meshes;
    const auto lens_m = static_cast<float>(reach.lens_to_backdrop_m);
    const auto middle = static_cast<float>((reach.left_m + reach.right_m) / 2);
    const float half_angle =
        std::atan(static_cast<float>(reach.right_m - reach.left_m) / (2 * lens_m));
    const glm::vec3 sun = towards_sun(reach.sun_elevation_deg, reach.sun_azimuth_deg);
    const float sun_bearing = std::atan2(sun.x, -sun.z);

    const int columns = std::clamp(static_cast<int>(half_angle / 0.011F), 1, 32);
    constexpr int rows = 26;
    for (int row = 0; row < rows; ++row) {
        for (int column = -columns; column < columns; ++column) {
            Chance chance{111, row, column};
            const float bearing = 0.011F * (static_cast<float>(column) + chance.unit());
            const float ratio = (static_cast<float>(row) + chance.unit()) / rows;
            const float away_m = (lens_m + 0.3F) * std::exp(2.6F * ratio);
            const float off_sun = std::remainder(bearing - sun_bearing, glm::radians(360.0F));
            const float likely = 0.035F + 0.45F * std::exp(-off_sun * off_sun / 0.05F);
            const float gathering = noise(glm::vec2{bearing * 14, ratio * 9}, 113);
            if (chance.unit() > likely * (0.25F + 1.5F * gathering) * (1 - 0.5F * ratio))
                continue;
            const float size_m = 0.0017F * away_m * (0.3F + 1.2F * squared(chance.unit()));
            const glm::vec3 place{middle + away_m * std::tan(bearing),
                                  up_m + 0.006F + 0.45F * size_m, -back_m - (away_m - lens_m)};
            const auto strength = static_cast<std::size_t>(3 * chance.unit());
            shapes::append(meshes[strength],
                           shapes::octahedron(place, {1.5F * size_m, 0.45F * size_m, 0.6F * size_m},
                                              glm::vec3{1}));
        }
    }
    return meshes;
}

}  // namespace

std::vector<Piece> build_glints(double back_m, float up_m, const Reach& reach) {
    std::vector<Piece> pieces;
    auto meshes = facets(static_cast<float>(back_m), up_m, reach);
    for (std::size_t i = 0; i < strengths.size(); ++i) {
        if (meshes[i].indices.empty())
            continue;
        pieces.push_back({.mesh = std::move(meshes[i]),
                          .material = {.base_colour = glm::vec3{0},
                                       .emission = strengths[i] * glm::vec3{1.0F, 0.95F, 0.84F}},
                          .is_highlight = true});
    }
    return pieces;
}

}  // namespace backrow::setting
