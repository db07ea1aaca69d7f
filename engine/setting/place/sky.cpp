#include "setting/ground/grounds.h"
#include "setting/place/sun.h"

#include "setting/chance.h"
#include "setting/piece_lists.h"

#include "shapes/assemble.h"

#include "base/units.h"

#include <glm/common.hpp>

#include <algorithm>
#include <cmath>

namespace backrow::setting {
namespace {

constexpr float pi = std::numbers::pi_v<float>;

struct Palette {
    glm::vec3 horizon, zenith, glow;
};

// Linear, 1 is as bright as a screen goes. By day, with the sun low, and after it has set.
constexpr Palette day{{0.70F, 0.80F, 0.90F}, {0.13F, 0.29F, 0.62F}, {1.0F, 0.97F, 0.88F}};
constexpr Palette low_sun{{0.86F, 0.66F, 0.46F}, {0.17F, 0.27F, 0.50F}, {1.0F, 0.72F, 0.36F}};
constexpr Palette dusk{{0.13F, 0.12F, 0.16F}, {0.012F, 0.022F, 0.06F}, {0.34F, 0.17F, 0.09F}};

Palette blend(const Palette& a, const Palette& b, float t) {
    return {glm::mix(a.horizon, b.horizon, t), glm::mix(a.zenith, b.zenith, t),
            glm::mix(a.glow, b.glow, t)};
}

Palette palette_for(float sun_elevation_deg) {
    const Palette lit = blend(low_sun, day, smooth_step(2, 22, sun_elevation_deg));
    return blend(dusk, lit, smooth_step(-8, 3, sun_elevation_deg));
}

glm::vec3 sky_colour(const glm::vec3& towards, const glm::vec3& sun, const Palette& palette) {
    const float up = std::max(towards.y, 0.0F);
    glm::vec3 colour = glm::mix(palette.zenith, palette.horizon, std::exp(-5.0F * up));
    const float to_sun = std::acos(std::clamp(glm::dot(towards, sun), -1.0F, 1.0F));
    const float glow =
        0.75F * std::exp(-to_sun * to_sun / 0.07F) + 0.45F * std::exp(-to_sun / 0.55F);

    // Fair-weather clouds, flat and wide, as large as the dome can show; lost in haze low down.
    const glm::vec2 place{std::atan2(towards.x, -towards.z) / 0.34F,
                          std::asin(std::clamp(towards.y, -1.0F, 1.0F)) / 0.15F};
    const float thickness = (3 * noise(place, 51) + noise(2.1F * place, 52)) / 4;
    const float cover = smooth_step(0.40F, 0.70F, thickness) * smooth_step(0.01F, 0.10F, up) *
                        smooth_step(1.0F, 0.6F, up);
    const glm::vec3 cloud = glm::mix(palette.horizon, glm::vec3{1.0F} * palette.glow, 0.65F) *
                            (1.06F - 0.22F * smooth_step(0.66F, 0.90F, thickness));
    colour = glm::mix(colour, cloud, 0.8F * cover);
    return glm::clamp(glm::mix(colour, palette.glow, std::min(glow, 1.0F)), 0.0F, 1.0F);
}

}  // namespace

glm::vec3 towards_sun(double elevation_deg, double azimuth_deg) noexcept {
    const double elevation = rad_from_deg(elevation_deg);
    const double azimuth = rad_from_deg(azimuth_deg);
    return glm::vec3{glm::dvec3{std::sin(azimuth) * std::cos(elevation), std::sin(elevation),
                                std::cos(azimuth) * std::cos(elevation)}};
}

std::vector<Piece> build_sky(double sun_elevation_deg, double sun_azimuth_deg) {
    constexpr int columns = 58;
    constexpr int rows = 25;
    constexpr float lowest_rad = -0.06F;
    const Palette palette = palette_for(static_cast<float>(sun_elevation_deg));
    const glm::vec3 sun = towards_sun(sun_elevation_deg, sun_azimuth_deg);

    Piece dome{.material = {.lit = false}};
    for (int row = 0; row <= rows; ++row) {
        // Rows crowd towards the horizon and columns towards the middle of the picture.
        const float climb = static_cast<float>(row) / rows;
        const float elevation = lowest_rad + (pi / 2 - lowest_rad) * std::pow(climb, 1.6F);
        for (int column = 0; column <= columns; ++column) {
            const float turn = 2.0F * static_cast<float>(column) / columns - 1;
            const float bearing = pi * (0.24F * turn + 0.76F * turn * turn * turn);
            const glm::vec3 towards{std::sin(bearing) * std::cos(elevation), std::sin(elevation),
                                    -std::cos(bearing) * std::cos(elevation)};
            shapes::append(dome.mesh, {.position_m = dome_radius_m * towards,
                                       .normal = -towards,
                                       .colour = sky_colour(towards, sun, palette)});
        }
    }
    for (std::uint32_t row = 0; row < rows; ++row) {
        for (std::uint32_t column = 0; column < columns; ++column) {
            const std::uint32_t low_left = row * (columns + 1) + column;
            const std::uint32_t high_left = low_left + columns + 1;
            shapes::append_triangle(dome.mesh, low_left, low_left + 1, high_left + 1);
            if (row + 1 < rows) {
                shapes::append_triangle(dome.mesh, low_left, high_left + 1, high_left);
            }
        }
    }
    return one(std::move(dome));
}

}  // namespace backrow::setting
