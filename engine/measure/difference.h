#pragma once

// How far two pictures of the same are apart.

#include "base/image.h"

namespace backrow::measure {

/// In squares of the steps of eight bits, over all channels.
struct Difference {
    double mean_square = 0;
    double worst_mean_square = 0;  ///< Of the worst square of block_px, where an eye may rest.
};

inline constexpr int block_px = 32;

/// Pictures of the same size.
[[nodiscard]] Difference difference(const Image<Rgb8>& one, const Image<Rgb8>& other);

/// Peak signal-to-noise ratio, 10·log10(255²/mean square); infinite for 0.
[[nodiscard]] double decibels(double mean_square) noexcept;

}  // namespace backrow::measure
