#pragma once

// How the stage is lit: flat, or by sun and sky. Most surfaces carry their light at their vertices,
// worked out once; those with vertices too far apart for a shadow, or with a texture, are lit at
// every pixel of every pass.

#include "render/driver/gl.h"
#include "render/driver/progress.h"
#include "render/light/light_rig.h"
#include "render/studio/stage_on_gpu.h"

#include "base/problem.h"

#include <optional>
#include <string>
#include <vector>

namespace backrow::render {

/// lit: sun, sky, tone. flat: base colour × vertex colour × texture + emission, for checking.
enum class Look { lit, flat };

/// What the shaders of a look are compiled with.
[[nodiscard]] std::vector<std::string> look_defines(Look look);

class Lighting {
public:
    /// eye_m  the lens: highlights of the sun and the exposure are those that it sees
    [[nodiscard]] static Finished<Lighting> make(const Gl& gl, const StageOnGpu& stage, Look look,
                                                 const glm::dvec3& eye_m, const Progress& progress,
                                                 LightCare care = LightCare::full);

    [[nodiscard]] Look look() const noexcept { return look_; }
    /// Whether this part is lit at every pixel.
    [[nodiscard]] bool by_pixel(const DrawnPart& part) const noexcept;

    /// Makes current what vertex_lit.vert reads, all but the indices.
    void bind_by_vertex() const;
    /// Makes current what lens_pass.vert with lit.frag or flat.frag reads.
    void bind_by_pixel(const StageOnGpu& stage) const;

private:
    Lighting() = default;
    Look look_ = Look::flat;
    std::optional<LightRig> rig_;
    Buffer vertex_light_;
    VertexArray layout_;
};

}  // namespace backrow::render
