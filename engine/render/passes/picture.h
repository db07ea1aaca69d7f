#pragma once

// A whole picture of any size: tile after tile of it accumulated, developed and put together.

#include "render/driver/progress.h"
#include "render/passes/accumulation.h"

#include "base/image.h"

namespace backrow::render {

struct Picture {
    Image<Rgb8> developed;
    Image<Rgb> linear;  ///< Empty unless wanted.
    int passes = 0;     ///< Of the samples so many were taken, in the tile that took most.
};

enum class KeepLinear { no, yes };

/// Renders the crop. Tiles keep within the driver's limits and within memory that does not grow
/// with the picture.
[[nodiscard]] Finished<Picture> make_picture(const Studio& studio, const scene::CameraView& view,
                                             const CropRect& crop, const LensSamples& samples,
                                             KeepLinear keep_linear, const Progress& progress);

}  // namespace backrow::render
