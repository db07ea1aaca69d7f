#include "optics/thin_lens.h"

#include "base/units.h"

#include <cmath>
#include <limits>

namespace backrow::optics {

std::optional<ThinLens> thin_lens(const LensSettings& settings) noexcept {
    const double focus_mm = mm_from_m(settings.focus_m);
    const bool finite = std::isfinite(settings.focal_length_mm) &&
                        std::isfinite(settings.f_number) && std::isfinite(focus_mm);
    if (!finite || settings.f_number <= 0 || settings.focal_length_mm <= 0 ||
        focus_mm <= settings.focal_length_mm)
        return std::nullopt;
    return ThinLens{settings};
}

double aperture_diameter_mm(const ThinLens& lens) noexcept {
    return lens.focal_length_mm() / lens.f_number();
}

double image_distance_mm(const ThinLens& lens) noexcept {
    const double focus_mm = mm_from_m(lens.focus_m());
    return lens.focal_length_mm() * focus_mm / (focus_mm - lens.focal_length_mm());
}

double magnification(const ThinLens& lens) noexcept {
    return lens.focal_length_mm() / (mm_from_m(lens.focus_m()) - lens.focal_length_mm());
}

double blur_diameter_mm(const ThinLens& lens, double axial_m) noexcept {
    if (!(axial_m > 0))
        return std::numeric_limits<double>::quiet_NaN();
    // With v = f s/(s − f) the documented formula becomes (D v) |1/s − 1/d|, the cone behind the
    // lens cut by the sensor. Written in reciprocals it is exact at d = s and as d → ∞, where
    // |d − s|/d would be ∞/∞.
    const double defocus_dpt = std::abs(1 / lens.focus_m() - 1 / axial_m);
    return image_distance_mm(lens) * m_from_mm(aperture_diameter_mm(lens)) * defocus_dpt;
}

}  // namespace backrow::optics
