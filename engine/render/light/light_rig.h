#pragma once

// Sun and sky over the stage, or a window and the room: points of the sun's face or of the pane,
// directions of the sky, and who stands in whose way seen from each. Their mean makes soft shadows.

#include "render/driver/gl.h"
#include "render/driver/progress.h"
#include "render/light/light_care.h"
#include "render/light/light_views.h"
#include "render/studio/stage_on_gpu.h"

#include "base/problem.h"

#include <glm/vec3.hpp>

#include <optional>

namespace backrow::render {

/// Shadow maps of every light, drawn once.
class LightRig {
public:
    /// returns  nothing where progress said stop
    [[nodiscard]] static Finished<LightRig> make(const Gl& gl, const StageOnGpu& stage,
                                                 const glm::dvec3& eye_m, LightCare care,
                                                 const Progress& progress);

    /// Makes maps and numbers current for daylight.glsl.
    void bind() const;
    /// Makes no maps current any more.
    static void bind_no_maps();
    /// Where shadows are: round the people.
    [[nodiscard]] const Ball& ball() const noexcept { return ball_; }
    /// Of the main light, and of its highlights.
    [[nodiscard]] const glm::vec3& main_colour() const noexcept { return main_colour_; }

private:
    LightRig() = default;
    Ball ball_;
    glm::vec3 main_colour_{0};
    Texture main_maps_;
    Texture sky_maps_;
    Buffer numbers_;
};

}  // namespace backrow::render
