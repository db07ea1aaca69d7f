#include "optics/blur/recompose.h"

#include "base/units.h"

#include <cmath>

namespace backrow::optics {

// 1 − cos θ as 2 sin²(θ/2), which keeps its digits at small angles.
double recompose_error_m(double range_m, double turn_deg) noexcept {
    const double half_sine = std::sin(rad_from_deg(turn_deg) / 2);
    return 2 * range_m * half_sine * half_sine;
}

}  // namespace backrow::optics
