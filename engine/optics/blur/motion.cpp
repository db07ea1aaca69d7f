#include "optics/blur/motion.h"

#include "base/units.h"

#include <cmath>

namespace backrow::optics {

double streak_mm(double magnification, double speed_mps, double shutter_s) noexcept {
    return magnification * mm_from_m(speed_mps) * shutter_s;
}

// The spot while it moves is the spot at rest spread evenly over the streak, and the second moments
// of two independent displacements add. A uniform disc of diameter b has E[r²] = b²/8; a point that
// is anywhere on a line of length ℓ with equal chance has E[x²] = ℓ²/12. So
//
//     b'²/8 = b²/8 + ℓ²/12.
double spot_with_streak_mm(double spot_mm, double streak_mm) noexcept {
    return std::sqrt(spot_mm * spot_mm + 2 * streak_mm * streak_mm / 3);
}

}  // namespace backrow::optics
