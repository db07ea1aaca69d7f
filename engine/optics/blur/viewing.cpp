#include "optics/blur/viewing.h"

#include "base/units.h"

#include <cmath>
#include <limits>

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

double limit_of(Grade grade, BlurUnit unit) noexcept {
    const bool in_arcmin = unit == BlurUnit::arcmin;
    switch (grade) {
    case Grade::crisp:
        return in_arcmin ? crisp_limit_arcmin : crisp_limit_px;
    case Grade::fine:
        return in_arcmin ? fine_limit_arcmin : fine_limit_px;
    case Grade::soft:
        return in_arcmin ? soft_limit_arcmin : soft_limit_px;
    case Grade::lost:
        break;
    }
    return std::numeric_limits<double>::infinity();
}

Grade grade_of(JudgedBlur blur) noexcept {
    for (const Grade grade : {Grade::crisp, Grade::fine, Grade::soft})
        if (blur.amount <= limit_of(grade, blur.unit))
            return grade;
    return Grade::lost;
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
