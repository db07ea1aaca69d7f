#pragma once

// What a lens profile does to a single ray. Through point p of the opening (in radii of the present
// one, R), a point at lateral X and axial d lands on the sensor at
//
//     x = v·[ X/d + R·p·(1/s − 1/d) + R·ε(p, h) ]
//
// with h the place of its image, a vector from the middle of the picture, as long as 1 in the
// corner, and κ = N₀/N the share of the widest opening's radius that is in use:
//
//     ε = (A κ² p² + C h²) p                    spherical aberration, field curvature
//       + (S/2) (2 h (h·p) − h² p)              astigmatism
//       + B κ (h p² + 2 (h·p) p)                coma
//
// It is the gradient of the wave aberration, so that light is neither made nor lost. The blur of
// these goes with 1/N³, h²/N, h²/N and h/N² [SMITH] ch. 6.

#include "optics/lens/lens_profile.h"

#include "base/sequences.h"

namespace backrow::optics {

/// ε of green, dioptres, with the constant part of the profile (common_dpt()).
///
/// pupil   p, in radii of the present opening
/// image   h; beyond √2, what it is at √2 in this direction
[[nodiscard]] Point2 ray_error_dpt(const LensProfile& profile, double f_number, const Point2& pupil,
                                   const Point2& image) noexcept;

}  // namespace backrow::optics
