#pragma once

// Where the lights over a stage are, and how each sees the group: the matrices of the shadow maps.

#include "stage/stage.h"

#include "base/sequences.h"

#include <glm/mat4x4.hpp>
#include <glm/vec3.hpp>

#include <cstdint>

namespace backrow::render {

/// Where shadows are drawn: round the people.
struct Ball {
    glm::dvec3 centre_m{0};
    double radius_m = 1;
};

/// One light's view of the ball.
struct LightView {
    glm::dmat4 map_from_world{1};  ///< Homogeneous: x and y in map space 0 … 1, depth growing away
                                   ///< from the light from 0 to 1, once divided by w.
    glm::dvec3 towards_or_place{0};  ///< Unit direction of a far light; the place of a near one.
    double width_m = 1;              ///< How wide the map is at the middle of the ball.
};

/// Point number index of the sun's face; direction number index of the sky.
[[nodiscard]] LightView view_from_sun(const glm::dvec3& towards_sun, std::uint64_t index,
                                      const Ball& ball);
[[nodiscard]] LightView view_from_sky(std::uint64_t index, const Ball& ball);
/// Point number index of the pane. Of a ball too near to be seen whole, the map shows the middle.
[[nodiscard]] LightView view_from_window(const stage::WindowLight& window, std::uint64_t index,
                                         const Ball& ball);

/// The map moved by a share, 0 … 1, of a texel less half a texel, across and up.
[[nodiscard]] glm::dmat4 shifted(const glm::dmat4& map_from_world, const Point2& share,
                                 double texel);

/// From map space to what is drawn.
[[nodiscard]] glm::dmat4 clip_from_map();

}  // namespace backrow::render
