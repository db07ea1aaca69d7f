#pragma once

// The blur circle (circle of confusion): how large a point is on the sensor. The one rule for the
// face table, the odds, advice, margins, the chart, the choice of samples and the window.

#include "optics/lens/lens.h"
#include "optics/lens/spot.h"

namespace backrow::optics {

/// Diameter on the sensor of the uniform disc with the same second moment as the spot of a point.
/// For the perfect lens that is the blur circle itself,
///
///     c(d) = f² |d − s| / (N d (s − f)),
///
/// and with the errors of a real one (spot.h)
///
///     b = v D √((spread·(1/s + best_focus_dpt − 1/d))² + residual_dpt²)
///
/// axial_m       distance d of the point along the axis, metres; > 0, may be infinite
/// image_height  0 centre … 1 corner; of no account for the perfect lens
/// returns       millimetres, ≥ 0; for the perfect lens exactly 0 in the plane of focus; NaN where
///               axial_m ≤ 0
/// holds         without diffraction; for a round opening, and for blades within the little that
///               their polygon's M₂ is larger, 0.8 % of the diameter for five, 0.1 % for nine
/// source        [JACOBSON] section 4; the second derived in spot.cpp and opening_shape.h
[[nodiscard]] double blur_diameter_mm(const Lens& lens, double axial_m,
                                      double image_height = 0) noexcept;

/// The same of a spot that is known.
[[nodiscard]] double blur_diameter_mm(const Lens& lens, const Spot& spot, double axial_m) noexcept;

/// What a blur comes from, as diameters that add as squares: what another focus would take away,
/// and what the lens leaves even in its best.
struct BlurParts {
    double defocus_mm = 0;
    double lens_mm = 0;  ///< 0 for the perfect lens.
};
[[nodiscard]] BlurParts blur_parts(const Lens& lens, double axial_m, double image_height) noexcept;

}  // namespace backrow::optics
