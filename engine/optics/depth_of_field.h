#pragma once

// How deep the zone is in which faces hold, and where to focus to hold two faces alike.

#include "optics/thin_lens.h"

namespace backrow::optics {

/// Axial distances from nearest to farthest: those between which a point holds, or those at which a
/// focus does.
struct AxialRange {
    double near_m;
    double far_m;  ///< Infinite where everything beyond holds.
};

/// The zone in which blur_diameter_mm() ≤ limit_mm; limit_mm ≥ 0.
[[nodiscard]] AxialRange sharp_zone(const ThinLens& lens, double limit_mm) noexcept;

/// The nearest focus whose zone reaches infinity, H = f²/(N c) + f, metres.
[[nodiscard]] double hyperfocal_m(double focal_length_mm, double f_number,
                                  double limit_mm) noexcept;

/// The focus that blurs nearest and farthest alike, s = 2 d₁ d₂/(d₁ + d₂). Both > 0, metres.
[[nodiscard]] double balanced_focus_m(double nearest_m, double farthest_m) noexcept;

}  // namespace backrow::optics
