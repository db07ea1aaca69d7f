#pragma once

// How bright the lights over a stage are, as a meter would expose for them.

#include "stage/stage.h"

#include <glm/vec3.hpp>

namespace backrow::render {

/// Brightness of the main light, sky and ground, linear, with the picture's exposure in it: an
/// upright white surface that faces the camera comes out near 1.
struct Daylight {
    /// Of the sun: what a surface that faces it sends on. Of a window: the same at a metre straight
    /// before it, were the whole pane there in one point.
    glm::vec3 main{0};
    glm::vec3 sky{0};     ///< Mean radiance of the dome, or of the room's upper half.
    glm::vec3 ground{0};  ///< Light thrown up on a surface that faces down.
};

/// towards_sun    unit vector, engine space
/// towards_lens   unit vector from the group to the camera: the exposure is metered on it
[[nodiscard]] Daylight metered_daylight(const glm::dvec3& towards_sun, bool sun_is_up,
                                        const glm::dvec3& towards_lens);

/// Metered on surfaces that face the camera, and by a third on one that faces the window, lest the
/// light side of a face be lost. Walls and ceiling throw a quarter of the light back into the
/// shadows, a middling room's share (common practice, no source).
///
/// group_m   the middle of the group, before the window
[[nodiscard]] Daylight metered_window_light(const stage::WindowLight& window,
                                            const glm::dvec3& group_m,
                                            const glm::dvec3& towards_lens);

}  // namespace backrow::render
