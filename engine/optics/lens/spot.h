#pragma once

// What the lens makes of a point, at one place of the picture, with the focus left open. A ray
// lands by q·e + ε' from the middle of the spot, q and ε' the pupil point and the error of
// ray_error.h less their means, e = 1/s − 1/d; so whatever the lens, the mean square is a parabola
// of e, and the diameter of the uniform disc with that second moment is
//
//     b = v D √((spread·(e + best_focus_dpt))² + residual_dpt²)

#include "optics/lens/lens.h"

namespace backrow::optics {

struct Spot {
    double best_focus_dpt = 0;  ///< What the lens adds to 1/s where it is best in focus.
    double residual_dpt = 0;    ///< What is left even there, ≥ 0.
    double spread = 1;          ///< Of the opening that is not vignetted; 1: all of it.

    bool operator==(const Spot&) const = default;
};

/// image_height  0 centre … 1 corner
/// holds         for green; with vignetting, for a round opening
[[nodiscard]] Spot spot_at(const Lens& lens, double image_height) noexcept;

}  // namespace backrow::optics
