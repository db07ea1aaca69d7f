#pragma once

// A whole picture of any size: tile after tile of it accumulated, developed and put together.

#include "render/driver/progress.h"
#include "render/passes/accumulation.h"

#include "base/image.h"

#include <optional>

namespace backrow::render {

struct Picture {
    Image<Rgb8> developed;
    Image<Rgb> linear;  ///< Empty unless wanted.
};

enum class KeepLinear { no, yes };

/// Everything a context needs to make pictures of one stage.
struct Studio {
    const Gl& gl;
    const PicturePrograms& programs;
    const StageOnGpu& stage;
    const Lighting& lighting;
    float light_gain = 1.0f;  ///< As Accumulation has it.
};

/// Renders the crop. Tiles keep within the driver's limits and within memory that does not grow
/// with the picture. Nothing is returned where progress said stop.
[[nodiscard]] std::optional<Picture> make_picture(const Studio& studio,
                                                  const scene::CameraView& view,
                                                  const CropRect& crop, const LensSamples& samples,
                                                  KeepLinear keep_linear, const Progress& progress);

}  // namespace backrow::render
