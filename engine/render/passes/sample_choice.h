#pragma once

// How many points of the lens a picture needs.

#include "render/passes/crop_rect.h"
#include "render/passes/lens_samples.h"
#include "render/studio/stage_on_gpu.h"

#include "stage/stage.h"

namespace backrow::render {

enum class Quality { draft, fine, reference };

struct SampleChoice {
    int passes = 64;
    int fine_samples = 64;  ///< For small bright sources.
};

/// Enough that neighbouring ghosts of an edge lie closer than the eye resolves in the largest blur
/// that the crop shows, and that a small lamp becomes a smooth disc. on_gpu holds the same stage.
[[nodiscard]] SampleChoice choose_samples(const stage::Stage& stage, const StageOnGpu& on_gpu,
                                          const scene::CameraView& view, const CropRect& crop,
                                          Quality quality);

/// The same for a number of passes that the user named.
[[nodiscard]] SampleChoice with_passes(const SampleChoice& choice, int passes);

/// The points themselves, for the opening of this view.
///
/// passes  as many as the user named; 0: as many as choose_samples() says
[[nodiscard]] LensSamples lens_samples_for(const stage::Stage& stage, const StageOnGpu& on_gpu,
                                           const scene::CameraView& view, const CropRect& crop,
                                           Quality quality, int passes);

}  // namespace backrow::render
