#pragma once

// How long pictures take, one against another: for the progress of several.

#include "render/passes/crop_rect.h"
#include "render/passes/lens_samples.h"

namespace backrow::delivery {

/// In proportion to the time that it takes. A pass draws all triangles, whatever it covers: they
/// count as so many texels.
[[nodiscard]] inline double work_of(const render::LensSamples& samples,
                                    const render::CropRect& crop) {
    constexpr double texels_of_triangles = 200'000;
    return static_cast<double>(samples.coarse.size()) *
           (static_cast<double>(crop.width_texels) * crop.height_texels + texels_of_triangles);
}

}  // namespace backrow::delivery
