#pragma once

// The measured blur: one small bright square at a face's reference point, alone over black, through
// the same lens samples, the same vertex shader and the same sums as the picture. What it covers is
// then measured from its green pixels; no formula of blur is asked.

#include "render/driver/gl.h"
#include "render/passes/cell_sums.h"
#include "render/passes/lens_samples.h"

#include "scene/camera_view.h"

#include "base/problem.h"
#include "base/units.h"

#include <glm/vec3.hpp>

#include <optional>

namespace backrow::render {

class Probe {
public:
    [[nodiscard]] static Made<Probe> make(const Gl& gl);

    /// Diameter, in camera pixels, of the uniform disc with the same second moment as the spot that
    /// the picture makes of this point. Nothing where the point lies behind the lens.
    [[nodiscard]] std::optional<CameraPixels> measure(const Gl& gl, const scene::CameraView& view,
                                                      const LensSamples& samples,
                                                      const glm::dvec3& point_m) const;

private:
    Probe(Program program, SumPrograms sum_programs)
        : program_{std::move(program)}, sum_programs_{std::move(sum_programs)} {}
    Program program_;
    SumPrograms sum_programs_;
};

}  // namespace backrow::render
