#pragma once

// Where to focus so that given points hold: depth of field asked the other way round.
//
// Where the lens that is handed in is focused makes no difference. With w = 1/v, the vergence
// behind it, the blur b = v D √(…) of blur_circle.h becomes
//
//     b = (D/w) √(σ² (τ − w)² + q²),   τ = 1/f − 1/d + k
//
// with k, q and σ the best focus, the residual and the spread of its spot (spot.h), which follow
// from the height of its image and so, a little, from w.

#include "optics/blur/sharp_zone.h"
#include "optics/lens/lens.h"

#include <optional>
#include <vector>

namespace backrow::optics {

/// A point in front of the lens.
struct PointInView {
    double axial_m;
    double field_tangent;  ///< Distance from the axis over distance along it.
};

/// The focus that blurs nearest and farthest alike through the perfect lens, s = 2 d₁ d₂/(d₁ + d₂).
/// Both > 0, metres.
[[nodiscard]] double balanced_focus_m(double nearest_m, double farthest_m) noexcept;

/// The focus distances at which the point's blur stays within the limit: one stretch, in closed
/// form; where there is field curvature, after a few rounds for the image height, which hardly
/// changes with the focus.
///
/// limit_mm  ≥ 0
/// returns   nothing where no focus will do, as with much spherical aberration
[[nodiscard]] std::optional<AxialRange> focus_span(const Lens& lens, const PointInView& point,
                                                   double limit_mm);

/// The focus distance at which the largest blur of all points is least; 2 d₁d₂/(d₁ + d₂) of nearest
/// and farthest for the perfect lens.
///
/// points   at least one
/// returns  metres, finite
[[nodiscard]] double evenest_focus_m(const Lens& lens, const std::vector<PointInView>& points);

}  // namespace backrow::optics
