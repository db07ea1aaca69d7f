#pragma once

// Where to focus so that given points hold: depth of field asked the other way round.
//
// With w = 1/v, the vergence behind the lens, the blur b = v D √(…) of lens_profile.h becomes
//
//     b = (D/w) √((τ − w)² + q²),   τ = 1/f − 1/d + k + 2a/3,   q = a/(3√2)
//
// a the spherical error at the edge of the opening, k = C/w² the curvature at the point's image.

#include "optics/depth_of_field.h"
#include "optics/lens_profile.h"

#include <optional>
#include <vector>

namespace backrow::optics {

/// A lens that has not been focused yet.
struct UnfocusedLens {
    LensProfile profile;
    double focal_length_mm;
    double f_number;
    double half_diagonal_mm;  ///< Of the sensor.
};

/// A point in front of the lens.
struct PointInView {
    double axial_m;
    double field_tangent;  ///< Distance from the axis over distance along it.
};

/// The focus distances at which the point's blur stays within the limit: one stretch, in closed
/// form; where there is field curvature, after a few rounds for the image height, which hardly
/// changes with the focus.
///
/// limit_mm  ≥ 0
/// returns   nothing where no focus will do, as with much spherical aberration
[[nodiscard]] std::optional<AxialRange> focus_span(const UnfocusedLens& lens,
                                                   const PointInView& point, double limit_mm);

/// The focus distance at which the largest blur of all points is least; 2 d₁d₂/(d₁ + d₂) of nearest
/// and farthest for the perfect lens.
///
/// points   at least one
/// returns  metres, finite
[[nodiscard]] double evenest_focus_m(const UnfocusedLens& lens,
                                     const std::vector<PointInView>& points);

}  // namespace backrow::optics
