#pragma once

// What a real lens adds to the perfect one: errors of vergence, in dioptres, that grow towards the
// edge of the opening (spherical aberration) and towards the corner of the picture (field
// curvature). A ray through lens zone u of a point at lateral X, axial d lands at
//
//     x = v·[ X/d + u·(1/s + Δ(ρ, h) − 1/d) ],   Δ = spherical·(ρ·N₀/N)² + curvature·h²
//
// ρ is the zone within the present opening, 0 centre … 1 edge; N₀ the f-number at which the lens
// was measured wide open, so stopping down to N uses only the inner part of it; h the image height,
// 0 centre … 1 corner. Third-order exponents: [SMITH] ch. 6.

namespace backrow::optics {

struct LensProfile {
    double widest_f_number = 1.0;      ///< N₀ > 0.
    double spherical_dpt = 0.0;        ///< At the edge of the widest opening, on the axis.
    double field_curvature_dpt = 0.0;  ///< In the corner of the picture.
};

/// Δ at zone ρ and image height h, dioptres.
[[nodiscard]] double defocus_dpt(const LensProfile& profile, double f_number, double zone,
                                 double image_height) noexcept;

/// Diameter on the sensor of the uniform disc with the same second moment as the spot of a point
/// seen through this lens; the same as blur_diameter_mm() where both errors are zero.
///
///     b = v D √((e + 2a/3)² + a²/18),   e = 1/s + curvature·h² − 1/d,   a = spherical·(N₀/N)²
///
/// focal_length_mm, f_number, focus_m as in LensSettings; axial_m > 0, may be infinite
/// image_height  0 centre … 1 corner
/// returns   millimetres, ≥ 0; NaN where no image can form or axial_m ≤ 0
/// source    derived above the function
[[nodiscard]] double spot_diameter_mm(const LensProfile& profile, double focal_length_mm,
                                      double f_number, double focus_m, double axial_m,
                                      double image_height) noexcept;

}  // namespace backrow::optics
