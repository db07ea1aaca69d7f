#pragma once

// Sun and sky over the stage: points of the sun's face and directions of the sky, and who stands in
// whose way seen from each. Their mean makes soft shadows.

#include "render/gl.h"
#include "render/progress.h"
#include "render/stage_on_gpu.h"

#include "base/problem.h"

#include <glm/vec3.hpp>

#include <optional>

namespace backrow::render {

/// Brightness of sun, sky and ground, linear, with the picture's exposure in it: an upright white
/// surface that faces the camera comes out near 1.
struct Daylight {
    glm::vec3 sun{0};
    glm::vec3 sky{0};     ///< Mean radiance of the dome.
    glm::vec3 ground{0};  ///< Light thrown up on a surface that faces down.
};

/// towards_sun    unit vector, engine space
/// towards_lens   unit vector from the group to the camera: the exposure is metered on it
[[nodiscard]] Daylight metered_daylight(const glm::dvec3& towards_sun, bool sun_is_up,
                                        const glm::dvec3& towards_lens);

/// Shadow maps of every light, drawn once.
class LightRig {
public:
    /// returns  nothing where progress said stop
    [[nodiscard]] static Made<std::optional<LightRig>> make(const Gl& gl, const StageOnGpu& stage,
                                                            const glm::dvec3& eye_m,
                                                            const Progress& progress);

    /// Makes maps and numbers current for daylight.glsl.
    void bind() const;

private:
    LightRig() = default;
    Texture sun_maps_;
    Texture sky_maps_;
    Buffer numbers_;
};

}  // namespace backrow::render
