#pragma once

// How the power of a piece of a picture is spread over frequencies and directions.

#include "measure/pixel_box.h"

#include "base/image.h"

#include <vector>

namespace backrow::measure {

/// Waves of nearly one length and one direction.
struct SpectrumBin {
    double power = 0;          ///< Its mean; white noise of variance v has v everywhere.
    double independent = 0;    ///< How many of them tell something of their own.
    double cycles_per_px = 0;  ///< Their mean frequency.
    double direction_rad = 0;  ///< Across their crests, anticlockwise from the right, 0 … π.
};

struct PowerSpectrum {
    std::vector<SpectrumBin> bins;
    double step_cycles_per_px = 0;  ///< What the box tells apart.
};

/// The deviations from the mean, faded out towards the edges of the box.
///
/// box       must lie within the picture
/// from, to  cycles a pixel: what bins there are
[[nodiscard]] PowerSpectrum power_spectrum(const Image<float>& light, const PixelBox& box,
                                           double from, double to);

/// The mean over the box as the bins weigh it: faded out likewise.
[[nodiscard]] double faded_mean(const Image<float>& light, const PixelBox& box);

}  // namespace backrow::measure
