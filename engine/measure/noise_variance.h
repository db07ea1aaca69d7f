#pragma once

// The noise of a picture, out of its smoothest places.

#include "base/image.h"

#include <vector>

namespace backrow::measure {

inline constexpr int noise_square_px = 16;

/// The variance of a pixel by noise that has as much of all waves, by the waves of 16/3 px in the
/// smoothest tenth of the squares. Longer ones are what is to be seen; and finer ones JPEG leaves
/// away where there is nothing else, but not at eyes and mouth. In pure noise the smoothest tenth
/// has a fifth less than all, which is left so: by calibration with rendered faces.
///
/// squares  of noise_square_px a side, of all parts of a picture
/// returns  on their scale; 0 where there are none
[[nodiscard]] double noise_variance(const std::vector<Image<float>>& squares);

}  // namespace backrow::measure
