#include "optics/lens_profile.h"

#include "optics/thin_lens.h"

#include "base/units.h"

#include <cmath>
#include <limits>
#include <numbers>

namespace backrow::optics {
namespace {

/// Spherical error at the edge of the present opening: only the inner N₀/N of the glass is used.
double spherical_at_edge_dpt(const LensProfile& profile, double f_number) noexcept {
    const double used = profile.widest_f_number / f_number;
    return profile.spherical_dpt * used * used;
}

double curvature_at_dpt(const LensProfile& profile, double image_height) noexcept {
    return profile.field_curvature_dpt * image_height * image_height;
}

}  // namespace

double defocus_dpt(const LensProfile& profile, double f_number, double zone,
                   double image_height) noexcept {
    return spherical_at_edge_dpt(profile, f_number) * zone * zone +
           curvature_at_dpt(profile, image_height);
}

// A ray through zone ρ of an opening of diameter D lands r = v (D/2) ρ (e + a ρ²) from the middle
// of the spot, with e = 1/s + curvature·h² − 1/d common to all zones and a = spherical·(N₀/N)² at
// the edge. Light fills the opening evenly, so zones weigh 2ρ dρ:
//
//     E[r²] = (v D/2)² ∫₀¹ ρ² (e + a ρ²)² 2ρ dρ = (v D/2)² (e²/2 + 2 e a/3 + a²/4)
//
// A uniform disc of diameter b has E[r²] = b²/8, so b = 2 √(2 E[r²]). Completing the square,
//
//     b = v D √((e + 2a/3)² + a²/18),
//
// which can never be the root of a negative rounding error, and shows the best focus of a lens with
// spherical aberration: not the axis' own, but two thirds of the way to the edge's.
double spot_diameter_mm(const LensProfile& profile, double focal_length_mm, double f_number,
                        double focus_m, double axial_m, double image_height) noexcept {
    const auto lens =
        thin_lens({.focal_length_mm = focal_length_mm, .f_number = f_number, .focus_m = focus_m});
    if (!lens || !(axial_m > 0))
        return std::numeric_limits<double>::quiet_NaN();
    const double e_dpt = 1 / focus_m + curvature_at_dpt(profile, image_height) - 1 / axial_m;
    const double a_dpt = spherical_at_edge_dpt(profile, f_number);
    const double spread_dpt = std::hypot(e_dpt + 2 * a_dpt / 3, a_dpt / (3 * std::numbers::sqrt2));
    return image_distance_mm(*lens) * m_from_mm(aperture_diameter_mm(*lens)) * spread_dpt;
}

}  // namespace backrow::optics
