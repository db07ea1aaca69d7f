#pragma once

// How large a spot of light in a picture is. Knows nothing of lenses.

#include "base/image.h"

#include <optional>

namespace backrow::measure {

struct Spot {
    double light = 0;            ///< Sum of the pixels.
    double centre_x_px = 0;      ///< Pixel i covers [i, i + 1).
    double centre_y_px = 0;
    double second_moment_px2 = 0;///< E[(r − centre)²], both axes together.
};

/// Nothing where the picture is black.
[[nodiscard]] std::optional<Spot> measure_spot(const Image<float>& picture);

/// Diameter of the uniform disc with the spot's second moment once the source's own is taken out:
/// a disc of radius R has E[r²] = R²/2 (E[x²] = R²/4). Zero where the source is the larger.
[[nodiscard]] double disc_diameter_px(const Spot& spot, const Spot& source) noexcept;

/// True where any pixel within margin_px of the border holds light: the spot may be cut off.
[[nodiscard]] bool touches_border(const Image<float>& picture, int margin_px) noexcept;

}  // namespace backrow::measure
