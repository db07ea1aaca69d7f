#pragma once

// A picture smoothed by a Gaussian.

#include "measure/pixel_box.h"

#include "base/image.h"

namespace backrow::measure {

/// A part of a picture, which may lie beyond it: there it goes on as it ends.
///
/// across_px2, down_px2  variances of the Gaussian, above 0
[[nodiscard]] Image<float> smoothed(const Image<float>& picture, const PixelBox& part,
                                    double across_px2, double down_px2);

}  // namespace backrow::measure
