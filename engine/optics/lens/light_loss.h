#pragma once

// What a lens loses of the light towards the corners.
//
// Mechanical vignetting: light must pass the opening between two rims, one in front of it and one
// behind, both as wide as the widest opening. Seen from the image at height h they lie k·h of its
// radii apart, half before and half behind the opening's middle on the way to the corner, k the
// profile's `vignetting`. Of the widest opening that leaves what two equal discs have in common:
// lamps become lemons. Stopping down shrinks the opening between them and not the rims, and so
// cures it.
//
// Natural falloff: the light of a ray that meets the sensor at an angle θ off the axis goes with
// cos⁴ θ, exactly so for a stop in front of the lens; a profile's `natural_falloff` is the share
// that a lens of its build has of it, (cos⁴ θ) to that power.

#include "optics/lens/lens.h"

#include "base/sequences.h"

namespace backrow::optics {

/// The rims, in radii of the present opening, which is the disc about 0.
struct VignettedOpening {
    double rim_radius;  ///< ≥ 1
    double rim_off;  ///< How far the middle of either lies off, towards and away from the corner.

    /// Whether they cut anything off.
    [[nodiscard]] bool is_cut() const noexcept { return rim_off > rim_radius - 1; }
    /// Where the outline passes from the opening's own edge to that of a rim, off the middle along
    /// the radius; 0 where it has no edge of its own left.
    [[nodiscard]] double crossing() const noexcept;
};

[[nodiscard]] VignettedOpening vignetted_opening(const LensProfile& profile, double f_number,
                                                 double image_height) noexcept;

/// Share of the opening's area that is left; of the widest, with rims d radii apart,
/// (2 acos(d/2) − (d/2) √(4 − d²))/π.
[[nodiscard]] double open_share(const VignettedOpening& opening) noexcept;

/// A point of the whole opening brought to where it is left open, so that even points stay even:
/// equal areas become equal areas. x is towards the corner; a point outside the disc stays outside.
[[nodiscard]] Point2 point_left_open(const VignettedOpening& opening,
                                     const Point2& in_opening) noexcept;

/// What is left of the light at this image height by both, 1 in the middle.
[[nodiscard]] double light_share(const Lens& lens, double image_height) noexcept;

}  // namespace backrow::optics
