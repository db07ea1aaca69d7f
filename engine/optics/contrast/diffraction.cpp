#include "optics/contrast/diffraction.h"

#include "optics/contrast/mtf.h"

#include <algorithm>
#include <cmath>

namespace backrow::optics {
namespace {

// Half of the contrast is left at these: of an even disc, cycles across it; of diffraction, by its
// cutoff 1/(λN). Both from their closed forms in mtf.h.
constexpr double mtf50_of_disc = 0.705085;
constexpr double mtf50_of_cutoff = 0.403973;

}  // namespace

double diffraction_disc_mm(const Lens& lens) noexcept {
    const double working_f_number = image_distance_mm(lens) / aperture_diameter_mm(lens);
    return mtf50_of_disc / mtf50_of_cutoff * wavelength_mm * working_f_number;
}

double with_diffraction_mm(double blur_mm, double diffraction_mm) noexcept {
    // By the larger, for an infinite blur stays one.
    const double larger_mm = std::max(blur_mm, diffraction_mm);
    if (!(larger_mm > 0 && std::isfinite(larger_mm)))
        return larger_mm;
    const double share = std::min(blur_mm, diffraction_mm) / larger_mm;
    return larger_mm * std::cbrt(1 + share * share * share);
}

std::optional<double> room_beside_diffraction_mm(double limit_mm, double diffraction_mm) noexcept {
    if (!(diffraction_mm <= limit_mm))
        return std::nullopt;
    if (!(limit_mm > 0 && std::isfinite(limit_mm)))
        return limit_mm;
    const double share = diffraction_mm / limit_mm;
    return limit_mm * std::cbrt(1 - share * share * share);
}

}  // namespace backrow::optics
