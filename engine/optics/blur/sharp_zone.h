#pragma once

// How deep the zone is in which points stay within a limit of blur: depth of field.

#include "optics/lens/lens.h"
#include "optics/lens/spot.h"

#include "base/units.h"

#include <optional>

namespace backrow::optics {

/// Axial distances from nearest to farthest: those between which a point holds, or those at which a
/// focus does.
struct AxialRange {
    double near_m;
    double far_m;  ///< Infinite where everything beyond holds.
};

/// The zone in which the blur circle of the perfect lens stays within a limit: by defocus alone.
///
/// limit_mm  ≥ 0
[[nodiscard]] AxialRange sharp_zone(const Lens& lens, double limit_mm) noexcept;

/// The nearest focus whose zone reaches infinity, H = f²/(N c) + f, metres.
[[nodiscard]] double hyperfocal_m(double focal_length_mm, double f_number,
                                  double limit_mm) noexcept;

/// A lens as the question "is this point within the limit?" needs it, to be asked a million times.
struct FocusedVergence {
    double focus_dpt = 0;          ///< 1/s
    double one_over_gain_mm2 = 0;  ///< 1/(v D)²; the blur is v D times the vergence error.
};

/// With the focus somewhere else than the lens has it; nothing where no image forms.
[[nodiscard]] inline std::optional<FocusedVergence> vergence_at(const Lens& lens,
                                                                double focus_m) noexcept {
    const double focal_m = m_from_mm(lens.focal_length_mm());
    if (!(focus_m > focal_m))
        return std::nullopt;
    const double one_over_v_mm = (focus_m - focal_m) / (lens.focal_length_mm() * focus_m);
    const double one_over_d = lens.f_number() / focal_m;
    return FocusedVergence{.focus_dpt = 1 / focus_m,
                           .one_over_gain_mm2 =
                               one_over_v_mm * one_over_v_mm * one_over_d * one_over_d};
}

/// Whether the blur of a point is within a limit.
///
/// spot       of the lens at the point's place in the picture
/// limit_mm2  the limit's square
/// axial_m    may have any value
[[nodiscard]] inline bool holds(const FocusedVergence& vergence, const Spot& spot, double limit_mm2,
                                double axial_m) noexcept {
    const double error_dpt = spot.spread * (vergence.focus_dpt + spot.best_focus_dpt - 1 / axial_m);
    return axial_m > 0 && error_dpt * error_dpt + spot.residual_dpt * spot.residual_dpt <=
                              limit_mm2 * vergence.one_over_gain_mm2;
}

/// The distances at which holds() is true; nothing where there are none.
[[nodiscard]] std::optional<AxialRange> holding_zone(const FocusedVergence& vergence,
                                                     const Spot& spot, double limit_mm2) noexcept;

/// The zones of a lens with its errors, all over the picture: what they have in common is worked
/// out once.
class SharpZones {
public:
    /// limit_mm  ≥ 0
    SharpZones(const Lens& lens, double limit_mm) noexcept;

    /// Where blur_diameter_mm() ≤ limit_mm; nothing where the errors alone blur more.
    ///
    /// image_height  0 centre … 1 corner
    [[nodiscard]] std::optional<AxialRange> at(double image_height) const noexcept {
        return holding_zone(vergence_, spot_at(lens_, image_height), limit_mm2_);
    }

private:
    Lens lens_;
    FocusedVergence vergence_;
    double limit_mm2_;
};

}  // namespace backrow::optics
