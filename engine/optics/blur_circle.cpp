#include "optics/blur_circle.h"

#include "base/units.h"

#include <cmath>
#include <limits>

namespace backrow::optics {

// A ray through pupil radius ρ of an opening of diameter D lands r = v (D/2) ρ (e + a ρ²) from the
// middle of the spot, with e = 1/s + curvature·h² − 1/d common to all rays and a =
// spherical·(N₀/N)² at the edge. Light fills the opening evenly; over the round one, where radii
// weigh 2ρ dρ,
//
//     E[r²] = (v D/2)² ∫₀¹ ρ² (e + a ρ²)² 2ρ dρ = (v D/2)² (e²/2 + 2 e a/3 + a²/4)
//
// A uniform disc of diameter b has E[r²] = b²/8, so b = 2 √(2 E[r²]). Completing the square,
//
//     b = v D √((e + 2a/3)² + a²/18),
//
// which can never be the root of a negative rounding error, and shows the best focus of a lens with
// spherical aberration: not the axis' own, but two thirds of the way to the edge's. For other
// openings, opening_shape.h.
double blur_diameter_mm(const Lens& lens, double axial_m, double image_height) noexcept {
    if (!(axial_m > 0))
        return std::numeric_limits<double>::quiet_NaN();
    // With v = f s/(s − f) the first documented formula is (D v) |1/s − 1/d|, the cone behind the
    // lens cut by the sensor. Written in reciprocals it is exact at d = s and as d → ∞, where
    // |d − s|/d would be ∞/∞.
    const double error_dpt = 1 / lens.focus_m() + best_focus_dpt(lens, image_height) - 1 / axial_m;
    return image_distance_mm(lens) * m_from_mm(aperture_diameter_mm(lens)) *
           std::hypot(error_dpt, residual_dpt(lens));
}

}  // namespace backrow::optics
