#pragma once

// What the movement of a subject during the exposure adds to its blur.

namespace backrow::optics {

/// Length of the streak on the sensor that a point draws while the shutter is open,
///
///     ℓ = m v t
///
/// magnification  image over object at the subject, ≥ 0
/// speed_mps      across the line of sight, ≥ 0
/// shutter_s      ≥ 0
/// returns        millimetres
/// holds          for an even movement that is small against the distance
[[nodiscard]] double streak_mm(double magnification, double speed_mps, double shutter_s) noexcept;

/// Diameter of the uniform disc with the same second moment as a disc drawn out into a streak,
///
///     b' = √(b² + 2ℓ²/3)
///
/// The mean of all directions: along the streak there is more blur than this, across it less.
/// spot_mm    diameter b of the spot at rest, ≥ 0
/// streak_mm  ≥ 0
/// source     derived above the function
[[nodiscard]] double spot_with_streak_mm(double spot_mm, double streak_mm) noexcept;

}  // namespace backrow::optics
