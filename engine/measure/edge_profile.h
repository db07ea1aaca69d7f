#pragma once

// The brightness across an edge, finer than its pixels: the edge spread function.

#include "measure/edge_line.h"

#include "base/image.h"

#include <vector>

namespace backrow::measure {

/// So many bins to a pixel of a row, or a few more: see edge_profile(). Source: [ISO12233].
inline constexpr int bins_per_px = 4;

/// What fell into a bin. Its place is the mean of theirs and not the bin's own middle, for at some
/// angles pixels reach few places within a bin.
struct ProfileBin {
    double at_px = 0;         ///< Distance from the edge along its normal, + to the right.
    double spread_px2 = 0;    ///< Variance of the pixels' distances within the bin.
    double light = 0;         ///< Mean.
    double light_spread = 0;  ///< Variance of the pixels' lights about it.
    int pixels = 0;
};

/// All pixels projected along the line, bins from left to right. Bins with less than a quarter of
/// what a bin holds at this length are left out, as are empty ones: at the ends of a slanted edge
/// few rows reach so far.
///
/// holds  where the edge leans by one pixel in four to seven rows, pixels reach only so many places
///        within a pixel, and there are as many bins: each then holds one
[[nodiscard]] std::vector<ProfileBin> edge_profile(const Image<float>& box, const EdgeLine& line);

}  // namespace backrow::measure
