#pragma once

// The noise of a frame, on the scale that is shown, where it changes little with brightness.

#include "base/image.h"

namespace backrow::inspection {

/// The variance of a pixel; 0 where all is black or white.
[[nodiscard]] double frame_noise(const Image<Rgb8>& shown);

}  // namespace backrow::inspection
