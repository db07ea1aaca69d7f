#pragma once

// Sun and sky over the stage. Each step of a picture takes one point of the sun's face and one
// direction of the sky and draws who stands in whose way; over the steps that makes soft shadows.

#include "render/gl.h"
#include "render/stage_on_gpu.h"

#include "base/problem.h"

#include <glm/vec3.hpp>

#include <vector>

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

class LightRig {
public:
    [[nodiscard]] static Made<LightRig> make(const Gl& gl, const StageOnGpu& stage,
                                             const glm::dvec3& eye_m);

    /// Draws the shadows of step number step. Changes framebuffer, viewport and program.
    void set_step(const StageOnGpu& stage, int step);
    /// Makes maps and numbers current for lit.frag.
    void bind() const;

private:
    LightRig() = default;
    void draw_map(const StageOnGpu& stage, GLuint framebuffer, const float* clip_from_world) const;

    Program program_;
    GLint clip_from_world_ = -1;
    Texture sun_map_, sky_map_;
    Framebuffer sun_target_, sky_target_;
    Buffer numbers_;
    std::vector<const DrawnPart*> casters_;
    glm::dvec3 centre_m_{0};
    double radius_m_ = 1;
    glm::dvec3 towards_sun_{0, 1, 0};
    glm::dvec3 eye_m_{0};
    Daylight daylight_;
};

}  // namespace backrow::render
