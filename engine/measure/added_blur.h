#pragma once

// How much more one picture of a thing is blurred than another picture of the same thing.
//
// A narrow blur acts on a picture as the heat equation does: it adds half of its covariance times
// the second derivatives. So differences between two pictures, regressed on the slopes and second
// derivatives of their mean, tell the shift between them and the covariance that is added, with
// nothing supposed of what is to be seen; derived in engine/README.md.

#include "measure/pixel_box.h"

#include "base/image.h"

#include <optional>

namespace backrow::measure {

/// The covariance of what would have to blur the first picture for it to look like the second;
/// negative where the first is more blurred.
struct AddedBlur {
    double across_px2 = 0;
    double down_px2 = 0;
    double both_px2 = 0;  ///< Off the diagonal; y counts downward.
    /// Standard deviation of the mean of the first two, from what is left unexplained.
    double error_px2 = 0;
    /// The square of what is left unexplained against that of the contrast: 0 alike, 4 strangers.
    double unlike = 0;
    double right_px = 0;  ///< The second shows things so much farther to the right …
    double down_px = 0;   ///< … and down.

    [[nodiscard]] double mean_px2() const noexcept { return (across_px2 + down_px2) / 2; }
    /// Variances along and across the direction in which the most was added.
    [[nodiscard]] double most_px2() const noexcept;
    [[nodiscard]] double least_px2() const noexcept;
    /// Of the most, anticlockwise from the right: −90 … 90.
    [[nodiscard]] double direction_deg() const noexcept;
};

/// first, second  linear light, of one size, in register to a fifth of the box's shorter side
/// box            what is compared; beside it as much is used as there is
/// returns        nothing where the sizes differ, the box is under 16 px wide or high, or there is
///                nothing to compare
[[nodiscard]] std::optional<AddedBlur> added_blur(const Image<float>& first,
                                                  const Image<float>& second, const PixelBox& box);

}  // namespace backrow::measure
