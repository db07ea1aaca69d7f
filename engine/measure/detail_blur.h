#pragma once

// How blurred a piece of a picture is that holds nothing known to be sharp: by how the power of its
// detail falls from coarse to fine, in every direction.
//
// What a disc and a stroke leave of each wave is known; what the sharp thing had, roughly: beyond
// some frequency its power falls as a power of that. All discs and strokes are tried, and each is
// as probable as it makes the spectrum that was found (Whittle's likelihood). Source:
// [WHITTLE1953]; derived in engine/README.md.

#include "measure/pixel_box.h"

#include "base/image.h"

#include <optional>

namespace backrow::measure {

/// The detail of a thing that is sharp.
struct SharpDetail {
    double knee_px;             ///< Waves longer than this have about the same power …
    double fall = 3;            ///< … and shorter ones less, as this power of their length.
    double fall_error = 0.15;   ///< Its standard deviation from thing to thing.
    double more_across = -0.1;  ///< The logarithm by which waves across have more than the mean.
};

struct DetailBlur {
    /// Diameter of the disc that would blur as much on average over all directions, and where it
    /// lies in 90 % of cases.
    double px = 0;
    double from_px = 0;
    double to_px = 0;
    double moved = 0;           ///< The probability that a stroke is the most of it …
    double direction_deg = 0;   ///< … and along which it runs, anticlockwise from the right …
    double direction_sure = 0;  ///< … from 0, any, to 1, this one.
    bool is_beyond = false;     ///< As much as can be told, or more.
};

/// picture  as it is shown, 0 … 1, not linear
/// box      must lie within the picture
/// noise_variance  of a pixel; what eight bits round is there at least
/// returns  nothing where it is under 16 px wide or high or there is no detail above the noise
[[nodiscard]] std::optional<DetailBlur> detail_blur(const Image<float>& picture,
                                                    const PixelBox& box, const SharpDetail& sharp,
                                                    double noise_variance);

}  // namespace backrow::measure
