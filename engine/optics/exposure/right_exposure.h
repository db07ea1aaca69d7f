#pragma once

// Which shutter, ISO and filter suit the light at an aperture, beginning from what is set.

namespace backrow::optics {

/// All that is set besides the aperture.
struct ExposureSetting {
    double shutter_s = 0;     ///< > 0
    double iso = 0;           ///< > 0
    double filter_stops = 0;  ///< ≥ 0: what a grey (neutral density) filter takes away.

    bool operator==(const ExposureSetting&) const = default;
};

/// Stops by which the setting overexposes (+) or underexposes (−) a scene metered at scene_ev100,
/// as stops_over() of exposure.h, less what the filter takes away.
[[nodiscard]] double stops_over(const ExposureSetting& set, double f_number,
                                double scene_ev100) noexcept;

/// The setting that suits the light, as a photographer would change it: what is within a sixth of a
/// stop stays. Else the shutter gives way first, from the shortest mark to the longest that is
/// asked for; then ISO, to the ends of its marks; then, where it is still too bright, a grey filter
/// of whole stops. Where it is still too dark the shutter has to stay open beyond the limit. A
/// filter that is on comes off where the setting has to change.
///
/// f_number           engraved
/// longest_shutter_s  > 0, may be infinite
/// returns            marked values (stops.h), or what is set; within 0.2 of a stop of the light
[[nodiscard]] ExposureSetting right_exposure(const ExposureSetting& set, double f_number,
                                             double scene_ev100, double longest_shutter_s) noexcept;

}  // namespace backrow::optics
