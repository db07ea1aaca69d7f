#pragma once

// What the shape of the opening does to the spot of a lens with spherical aberration. Light fills
// the opening evenly; with M₂, M₄ and M₆ the means of ρ², ρ⁴ and ρ⁶ over it and ρ in radii of the
// round opening of the same area, a ray error ρ·(e + a ρ²) has the mean square
//
//     M₂ ((e + a M₄/M₂)² + a² (M₆/M₂ − (M₄/M₂)²))

namespace backrow::optics {

/// The opening's outline, as its blades make it.
struct Opening {
    int blades = 0;        ///< 0 a disc, or ≥ 3.
    double roundness = 0;  ///< 0 straight sides … 1 a disc (polygon_from_disc()).

    bool operator==(const Opening&) const = default;
};

struct OpeningShape {
    /// M₄/M₂: so much of the spherical error of the edge refocusing makes good.
    double refocused = 2.0 / 3;
    /// √(M₆/M₂ − (M₄/M₂)²): so much no focus takes away. 1/√18.
    double left_over = 0.23570226039551584;

    bool operator==(const OpeningShape&) const = default;
};

/// Of a polygon with the area of the round opening, or of that itself.
[[nodiscard]] OpeningShape opening_shape(const Opening& opening) noexcept;

}  // namespace backrow::optics
