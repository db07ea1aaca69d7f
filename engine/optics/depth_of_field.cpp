#include "optics/depth_of_field.h"

#include "base/units.h"

#include <limits>

namespace backrow::optics {

AxialRange sharp_zone(const ThinLens& lens, double limit_mm) noexcept {
    // The blur D v |1/s − 1/d| reaches the limit c where 1/d = 1/s ± c/(D v). Multiplied by s, so
    // that a limit of 0 gives s itself and not its reciprocal's reciprocal.
    const double allowed_dpt =
        limit_mm / (image_distance_mm(lens) * m_from_mm(aperture_diameter_mm(lens)));
    const double share = lens.focus_m() * allowed_dpt;
    return {.near_m = lens.focus_m() / (1 + share),
            .far_m =
                share < 1 ? lens.focus_m() / (1 - share) : std::numeric_limits<double>::infinity()};
}

double hyperfocal_m(double focal_length_mm, double f_number, double limit_mm) noexcept {
    const double beyond_the_focal_length_mm =
        focal_length_mm * focal_length_mm / (f_number * limit_mm);
    return m_from_mm(beyond_the_focal_length_mm + focal_length_mm);
}

double balanced_focus_m(double nearest_m, double farthest_m) noexcept {
    // Blur goes with |1/s − 1/d|, so alike at both ends means the middle of the reciprocals; this
    // form also answers 2 d₁ where the farthest is at infinity.
    return 2 / (1 / nearest_m + 1 / farthest_m);
}

}  // namespace backrow::optics
