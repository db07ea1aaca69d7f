#pragma once

// How many points of the lens a picture needs.

#include "render/passes/crop_rect.h"
#include "render/passes/lens_samples.h"
#include "render/studio/stage_on_gpu.h"

#include "stage/stage.h"

namespace backrow::render {

enum class Quality { draft, fine, reference };

struct SampleChoice {
    int passes = 32;       ///< So many first …
    int most_passes = 32;  ///< … then twice as many and again, up to so many, until …
    double enough_db = 0;  ///< … the picture changes by no more than this …
    double enough_in_worst_square_db = 0;  ///< … and its worst square (measure/difference.h).
    int fine_samples = 64;                 ///< For small bright sources, with the first passes.
    double spread_texels = 0;  ///< How far the cells of the first passes spread the largest blur.
};

/// How good each quality is, and how many fine samples make a smooth disc of the small lamp that is
/// spread furthest in the crop. on_gpu holds the same stage.
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
