#pragma once

// Lamps, windows and glints in somebody's photograph: small spots that the camera cut off at white.

#include "base/image.h"

#include <glm/vec2.hpp>
#include <glm/vec3.hpp>

#include <cstddef>
#include <vector>

namespace backrow::setting {

/// From here on, of white in linear light, a pixel may be part of a light; 0.85 is 237 of 255 in
/// sRGB. Common practice, no source.
inline constexpr float nearly_white = 0.85F;

/// Wider spots than this part of the shorter side (overcast sky, a shirt, a wall) are surfaces.
inline constexpr int widest_light_part = 25;

/// Of more, those with the most light are kept.
inline constexpr std::size_t most_lights = 240;

/// How much brighter than in the file a pixel of a light is taken to be.
///
///     1 + (gain − 1) · s(t),   t = (v − 0.85)/(1 − 0.85) within 0 … 1,   s(t) = t²(3 − 2t)
///
/// v         the brightest of its channels, linear, 0 … 1
/// gain      of a pixel at white; ≥ 1
[[nodiscard]] float times_brighter(float v, float gain) noexcept;

/// One light: an octagon on the picture, as large, as long and as slanted as the spot it stands
/// for.
struct LightSpot {
    glm::vec2 middle_px{0};      ///< From the top left corner of the picture, y down.
    glm::vec2 long_axis_px{0};   ///< From the middle to a corner …
    glm::vec2 short_axis_px{0};  ///< … and at right angles to that.
    glm::vec3 light{0};          ///< Linear, 1 is white: the mean of its pixels, brightened.
};

/// Area of the octagon over |long| · |short|: of a regular one, 2√2 times its radius squared.
inline constexpr float octagon_area = 2.8284271F;

/// Spots of neighbouring pixels nearly white, small enough to be lights, at least one of them at
/// the brightest step of the file or near it (v ≥ 0.95). The strongest first.
[[nodiscard]] std::vector<LightSpot> light_spots(const Image<Rgba8>& picture, float gain);

}  // namespace backrow::setting
