#include "optics/blur/blur_circle.h"

#include "base/units.h"

#include <cmath>
#include <limits>

namespace backrow::optics {

double blur_diameter_mm(const Lens& lens, double axial_m, double image_height) noexcept {
    return blur_diameter_mm(lens, spot_at(lens, image_height), axial_m);
}

double blur_diameter_mm(const Lens& lens, const Spot& spot, double axial_m) noexcept {
    if (!(axial_m > 0))
        return std::numeric_limits<double>::quiet_NaN();
    // With v = f s/(s − f) the first documented formula is (D v) |1/s − 1/d|, the cone behind the
    // lens cut by the sensor. Written in reciprocals it is exact at d = s and as d → ∞, where
    // |d − s|/d would be ∞/∞.
    const double error_dpt = 1 / lens.focus_m() + spot.best_focus_dpt - 1 / axial_m;
    return image_distance_mm(lens) * m_from_mm(aperture_diameter_mm(lens)) *
           std::hypot(spot.spread * error_dpt, spot.residual_dpt);
}

BlurParts blur_parts(const Lens& lens, double axial_m, double image_height) noexcept {
    const Spot spot = spot_at(lens, image_height);
    Spot without_rest = spot;
    without_rest.residual_dpt = 0;
    return {.defocus_mm = blur_diameter_mm(lens, without_rest, axial_m),
            .lens_mm = image_distance_mm(lens) * m_from_mm(aperture_diameter_mm(lens)) *
                       spot.residual_dpt};
}

}  // namespace backrow::optics
