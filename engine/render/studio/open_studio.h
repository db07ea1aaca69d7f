#pragma once

// A context with a stage in it, lit and ready: what every picture of that stage, whole or in part,
// from wherever it is taken, has in common.

#include "render/driver/headless_context.h"
#include "render/passes/picture.h"
#include "render/passes/sample_choice.h"

#include "base/problem.h"

#include <cmath>
#include <memory>
#include <optional>

namespace backrow::render {

class OpenStudio {
public:
    /// Opens a headless context, uploads the stage and lights it, each once.
    ///
    /// stage     outlives this
    /// eye_m     Lighting::make(); with several views, that of the one whose highlights matter most
    /// progress  of the light, which is nearly all of the work
    [[nodiscard]] static Finished<OpenStudio>
    make(const stage::Stage& stage, Look look, const glm::dvec3& eye_m, const Progress& progress);

    [[nodiscard]] const Gl& gl() const noexcept { return context_.gl(); }
    [[nodiscard]] const StageOnGpu& stage() const noexcept { return *on_gpu_; }
    /// lens_samples_for() this stage.
    [[nodiscard]] LensSamples samples_for(const scene::CameraView& view, const CropRect& crop,
                                          Quality quality, int passes = 0) const {
        return lens_samples_for(*stage_, *on_gpu_, view, crop, quality, passes);
    }
    /// For pictures this many stops brighter than metered. Valid as long as this lives where it is.
    [[nodiscard]] Studio studio(double stops_shown) const noexcept {
        return {context_.gl(), programs_, *on_gpu_, lighting_,
                static_cast<float>(std::exp2(stops_shown))};
    }

private:
    OpenStudio(HeadlessContext context, PicturePrograms programs, const stage::Stage& stage,
               std::unique_ptr<StageOnGpu> on_gpu, Lighting lighting)
        : context_{std::move(context)}, programs_{std::move(programs)}, stage_{&stage},
          on_gpu_{std::move(on_gpu)}, lighting_{std::move(lighting)} {}

    HeadlessContext context_;  // First, so that it outlives what was made in it.
    PicturePrograms programs_;
    const stage::Stage* stage_;
    std::unique_ptr<StageOnGpu> on_gpu_;
    Lighting lighting_;
};

}  // namespace backrow::render
