#include "optics/blur/sharp_zone.h"

#include <cmath>
#include <limits>

namespace backrow::optics {

AxialRange sharp_zone(const Lens& lens, double limit_mm) noexcept {
    // The blur D v |1/s − 1/d| reaches the limit c where 1/d = 1/s ± c/(D v). Multiplied by s, so
    // that a limit of 0 gives s itself and not its reciprocal's reciprocal.
    const double allowed_dpt =
        limit_mm / (image_distance_mm(lens) * m_from_mm(aperture_diameter_mm(lens)));
    const double share = lens.focus_m() * allowed_dpt;
    return {.near_m = lens.focus_m() / (1 + share),
            .far_m =
                share < 1 ? lens.focus_m() / (1 - share) : std::numeric_limits<double>::infinity()};
}

SharpZones::SharpZones(const Lens& lens, double limit_mm) noexcept
    : lens_{lens}, vergence_{*vergence_at(lens, lens.focus_m())}, limit_mm2_{limit_mm * limit_mm} {}

double hyperfocal_m(double focal_length_mm, double f_number, double limit_mm) noexcept {
    const double beyond_the_focal_length_mm =
        focal_length_mm * focal_length_mm / (f_number * limit_mm);
    return m_from_mm(beyond_the_focal_length_mm + focal_length_mm);
}

// holds() solved for the distance: 1/d lies within w of 1/s + k.
std::optional<AxialRange> holding_zone(const FocusedVergence& vergence, const Spot& spot,
                                       double limit_mm2) noexcept {
    const double w_squared =
        limit_mm2 * vergence.one_over_gain_mm2 - spot.residual_dpt * spot.residual_dpt;
    if (!(w_squared >= 0))
        return std::nullopt;
    const double middle_dpt = vergence.focus_dpt + spot.best_focus_dpt;
    const double w_dpt = std::sqrt(w_squared) / spot.spread;
    if (middle_dpt + w_dpt <= 0)
        return std::nullopt;
    const double far_dpt = middle_dpt - w_dpt;
    return AxialRange{.near_m = 1 / (middle_dpt + w_dpt),
                      .far_m = far_dpt > 0 ? 1 / far_dpt : std::numeric_limits<double>::infinity()};
}

}  // namespace backrow::optics
