#pragma once

// What a real lens adds to the perfect one: errors of vergence, in dioptres, that grow towards the
// edge of the opening (spherical aberration) and towards the corner of the picture (field
// curvature). A ray through pupil point u of a point at lateral X, axial d lands at
//
//     x = v·[ X/d + u·(1/s + Δ(ρ, h) − 1/d) ],   Δ = spherical·(ρ·N₀/N)² + curvature·h²
//
// ρ is the place in the present pupil, 0 centre … 1 edge; N₀ the f-number at which the lens was
// measured wide open, so stopping down to N uses only the inner part of it; h the image height,
// 0 centre … 1 corner, where h² counts no more than most_curved_height_squared. Third-order
// exponents: [SMITH] ch. 6.

#include <algorithm>

namespace backrow::optics {

/// From this h² on the field curves no further. Nobody beyond the corner is in the picture, but
/// their blur reaches in, and a term of third order means nothing far outside the circle that the
/// lens was made for.
inline constexpr double most_curved_height_squared = 2.0;

struct LensProfile {
    double widest_f_number = 1.0;      ///< N₀ > 0.
    double spherical_dpt = 0.0;        ///< At the edge of the widest opening, on the axis.
    double field_curvature_dpt = 0.0;  ///< In the corner of the picture.

    bool operator==(const LensProfile&) const = default;
};

/// Δ at pupil radius ρ and image height h, dioptres.
[[nodiscard]] double defocus_dpt(const LensProfile& profile, double f_number, double pupil,
                                 double image_height) noexcept;

/// Its second part, which the opening has no say in.
[[nodiscard]] inline double curvature_dpt(const LensProfile& profile,
                                          double image_height) noexcept {
    return profile.field_curvature_dpt *
           std::min(image_height * image_height, most_curved_height_squared);
}

/// Δ's first part at the edge of the present opening.
[[nodiscard]] inline double spherical_at_edge_dpt(const LensProfile& profile,
                                                  double f_number) noexcept {
    const double used = profile.widest_f_number / f_number;
    return profile.spherical_dpt * used * used;
}

}  // namespace backrow::optics
