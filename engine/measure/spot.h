#pragma once

// How large a spot of light in a picture is. Knows nothing of lenses.

#include "base/image.h"

#include <optional>

namespace backrow::measure {

struct Spot {
    double light = 0;        ///< Sum of the pixels.
    double centre_x_px = 0;  ///< Pixel i covers [i, i + 1).
    double centre_y_px = 0;
    /// E[(r − centre)²], both axes together, with each pixel's light counted at its middle.
    double second_moment_px2 = 0;
};

/// The spot in a picture of linear light, brightness ≥ 0. Nothing where the picture is black.
[[nodiscard]] std::optional<Spot> measure_spot(const Image<float>& picture);

/// Diameter of the uniform disc that spread the source into the spot.
///
///     d = 2 √(2 (E_spot − E_source)),   as a disc of radius R has E[r²] = R²/2
///
/// Second moments of a spread add up, whatever the shapes; taking the source's own away also takes
/// away the width of the pixels, which both carry.
/// returns   pixels; zero where the source is the larger
[[nodiscard]] double disc_diameter_px(const Spot& spot, const Spot& source) noexcept;

/// True where any pixel within margin_px of the border holds light: the spot may be cut off.
[[nodiscard]] bool touches_border(const Image<float>& picture, int margin_px) noexcept;

}  // namespace backrow::measure
