#include "optics/viewing.h"

#include "base/units.h"

#include <cmath>

// Where the limits in viewing.h come from:
//   crisp  1 arc minute: the stroke of the smallest letter that 20/20 sight reads, a fifth of a
//          letter of 5 arc minutes [ACUITY].
//   fine   2.75 arc minutes: five line pairs a millimetre, that is 0.2 mm, seen at 25 cm
//          [RAY2000] p. 52; 2·atan(0.1 mm / 250 mm) = 2.7502′.
//   soft   8 arc minutes: ours, about three times the fine limit. Beyond it the lashes have gone.

namespace backrow::optics {
namespace {

double enlargement(double sensor_long_side_mm, const PrintViewing& viewing) noexcept {
    return mm_from_cm(viewing.long_side_cm) / sensor_long_side_mm;
}

}  // namespace

double view_arcmin(double blur_mm, double sensor_long_side_mm,
                   const PrintViewing& viewing) noexcept {
    const double print_mm = blur_mm * enlargement(sensor_long_side_mm, viewing);
    return arcmin_from_rad(2 * std::atan(print_mm / (2 * mm_from_cm(viewing.distance_cm))));
}

double blur_mm_from_view_arcmin(double arcmin, double sensor_long_side_mm,
                                const PrintViewing& viewing) noexcept {
    const double print_mm =
        2 * mm_from_cm(viewing.distance_cm) * std::tan(rad_from_arcmin(arcmin) / 2);
    return print_mm / enlargement(sensor_long_side_mm, viewing);
}

Grade grade_from_arcmin(double arcmin) noexcept {
    if (arcmin <= crisp_limit_arcmin)
        return Grade::crisp;
    if (arcmin <= fine_limit_arcmin)
        return Grade::fine;
    return arcmin <= soft_limit_arcmin ? Grade::soft : Grade::lost;
}

Grade grade_from_px(double blur_px) noexcept {
    if (blur_px <= crisp_limit_px)
        return Grade::crisp;
    if (blur_px <= fine_limit_px)
        return Grade::fine;
    return blur_px <= soft_limit_px ? Grade::soft : Grade::lost;
}

const char* to_word(Grade grade) noexcept {
    switch (grade) {
    case Grade::crisp:
        return "crisp";
    case Grade::fine:
        return "fine";
    case Grade::soft:
        return "soft";
    case Grade::lost:
        break;
    }
    return "lost";
}

}  // namespace backrow::optics
