#pragma once

// What diffraction does to a grade: the blur that it counts for, and what it leaves for defocus and
// lens.
//
// Grades are limits for the diameter of an even disc. The disc that leaves half of the contrast at
// the same frequency as diffraction alone does, D with .705085/D = .403973/(λN), stands for it; it
// and the blur circle add as cubes. Squares, as for blurs that do not know of each other, are
// common practice, but defocus and diffraction are one wave: its MTF50 is up to 12 % better than
// that of squares, and within 3 % of that of cubes, whatever the defocus
// (tests/optics/diffraction_test.cpp).

#include "optics/lens/lens.h"

#include <optional>

namespace backrow::optics {

/// Diameter on the sensor of the even disc with the MTF50 of diffraction in green,
/// 1.7454 λN(1 + m), millimetres.
[[nodiscard]] double diffraction_disc_mm(const Lens& lens) noexcept;

/// A blur and what diffraction adds to it, ∛(b³ + d³), millimetres.
[[nodiscard]] double with_diffraction_mm(double blur_mm, double diffraction_mm) noexcept;

/// Its inverse: the largest blur that stays within a limit beside diffraction, millimetres; nothing
/// where diffraction alone is beyond it.
[[nodiscard]] std::optional<double> room_beside_diffraction_mm(double limit_mm,
                                                               double diffraction_mm) noexcept;

}  // namespace backrow::optics
