#pragma once

// How the stage is lit: flat, or by sun and sky. Every surface carries its light at its vertices,
// worked out once; those with vertices too far apart for a shadow are given more of them first.

#include "render/driver/gl.h"
#include "render/driver/progress.h"
#include "render/light/light_care.h"
#include "render/studio/stage_on_gpu.h"

#include "base/problem.h"

#include <cstddef>
#include <string>
#include <utility>
#include <vector>

namespace backrow::render {

/// lit: sun, sky, tone. flat: base colour × vertex colour × texture + emission, for checking.
enum class Look { lit, flat };

/// What the shaders of a look are compiled with.
[[nodiscard]] std::vector<std::string> look_defines(Look look);

class Lighting {
public:
    /// stage  its coarse parts are cut where their light asks for it (cut_by_light.h)
    /// eye_m  the lens: highlights of the sun and the exposure are those that it sees
    [[nodiscard]] static Finished<Lighting> make(const Gl& gl, StageOnGpu& stage, Look look,
                                                 const glm::dvec3& eye_m, const Progress& progress,
                                                 LightCare care = LightCare::full);

    /// Gives light to the vertices that the stage got since: somebody who has come, without
    /// anybody's shadow. What has light keeps it.
    [[nodiscard]] Finished<void> light_newcomers(const Gl& gl, const StageOnGpu& stage,
                                                 const glm::dvec3& eye_m);

    [[nodiscard]] Look look() const noexcept { return look_; }
    /// Of the highlights on textured surfaces.
    [[nodiscard]] const glm::vec3& highlight_colour() const noexcept { return highlight_colour_; }

    /// Makes current what vertex_lit.vert reads, all but indices and materials.
    void bind() const;

private:
    explicit Lighting(Program program) : program_{std::move(program)} {}
    void describe(const Gl& gl, const StageOnGpu& stage);

    Program program_;
    Look look_ = Look::flat;
    glm::vec3 highlight_colour_{0};
    std::size_t lit_vertices_ = 0;
    Buffer vertex_light_;
    VertexArray layout_;
};

}  // namespace backrow::render
