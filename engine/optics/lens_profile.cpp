#include "optics/lens_profile.h"

#include <cmath>
#include <numbers>

namespace backrow::optics {
namespace {

/// Spherical error at the edge of the present opening: only the inner N₀/N of the glass is used.
double spherical_at_edge_dpt(const LensProfile& profile, double f_number) noexcept {
    const double used = profile.widest_f_number / f_number;
    return profile.spherical_dpt * used * used;
}

}  // namespace

double defocus_dpt(const LensProfile& profile, double f_number, double pupil,
                   double image_height) noexcept {
    return spherical_at_edge_dpt(profile, f_number) * pupil * pupil +
           curvature_dpt(profile, image_height);
}

// A ray through pupil radius ρ of an opening of diameter D lands r = v (D/2) ρ (e + a ρ²) from the
// middle of the spot, with e = 1/s + curvature·h² − 1/d common to all rays and a =
// spherical·(N₀/N)² at the edge. Light fills the opening evenly, so radii weigh 2ρ dρ:
//
//     E[r²] = (v D/2)² ∫₀¹ ρ² (e + a ρ²)² 2ρ dρ = (v D/2)² (e²/2 + 2 e a/3 + a²/4)
//
// A uniform disc of diameter b has E[r²] = b²/8, so b = 2 √(2 E[r²]). Completing the square,
//
//     b = v D √((e + 2a/3)² + a²/18),
//
// which can never be the root of a negative rounding error, and shows the best focus of a lens with
// spherical aberration: not the axis' own, but two thirds of the way to the edge's.
double best_focus_dpt(const LensProfile& profile, double f_number, double image_height) noexcept {
    return curvature_dpt(profile, image_height) + 2 * spherical_at_edge_dpt(profile, f_number) / 3;
}

double residual_dpt(const LensProfile& profile, double f_number) noexcept {
    return std::abs(spherical_at_edge_dpt(profile, f_number)) / (3 * std::numbers::sqrt2);
}

}  // namespace backrow::optics
