#pragma once

// What aperture, shutter and ISO make of the light, and how long the shutter may stay open.
//
// Exposure values are whole stops of brightness; EV100 is that which a setting suits at ISO 100
// [RAY2000].

#include "optics/lens/lens.h"

namespace backrow::optics {

/// All > 0. The f-number as engraved: what it stands for is asked of exact_f_number().
struct Exposure {
    double f_number;
    double shutter_s;
    double iso;
};

/// EV = log₂(N²/t) of the numbers as they are, both > 0.
[[nodiscard]] double ev(double f_number, double shutter_s) noexcept;

/// Brightness of the scene, EV at ISO 100, that this setting suits: log₂(N²/t) − log₂(ISO/100),
/// with N on the exact scale and the shutter as it is.
[[nodiscard]] double ev100(const Exposure& exposure) noexcept;

/// Stops by which the setting overexposes (+) or underexposes (−) a scene metered at scene_ev100.
[[nodiscard]] double stops_over(const Exposure& exposure, double scene_ev100) noexcept;

/// The one of the three that is wanted where the other two and the brightness are given; exact, not
/// rounded to marks.
[[nodiscard]] double shutter_s_for(double scene_ev100, double f_number, double iso) noexcept;
[[nodiscard]] double iso_for(double scene_ev100, double f_number, double shutter_s) noexcept;
[[nodiscard]] double f_number_for(double scene_ev100, double shutter_s, double iso) noexcept;

/// N·(1 + m), m = f/(s − f): close up the sensor is further from the lens and gets less light.
[[nodiscard]] double effective_f_number(const Lens& lens) noexcept;

/// Longest shutter to hold by hand: a second over the focal length, in millimetres, that has the
/// same field on a sensor of 36 × 24 mm (by the diagonals). Common practice, no source.
[[nodiscard]] double handheld_limit_s(double focal_length_mm, double sensor_diagonal_mm) noexcept;

/// Longest shutter for which a streak ℓ = m v t (motion.h) stays within a limit.
///
/// magnification  image over object at the subject, ≥ 0
/// speed_mps      across the line of sight, ≥ 0
/// limit_mm       on the sensor, ≥ 0
/// returns        seconds; infinite where nothing moves
[[nodiscard]] double motion_limit_s(double magnification, double speed_mps,
                                    double limit_mm) noexcept;

}  // namespace backrow::optics
