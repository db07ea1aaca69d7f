#pragma once

// Focus and recompose: the focus is locked with somebody in the middle of the frame, then the
// camera is turned to its final framing, and the plane of focus turns with it.

namespace backrow::optics {

/// How far behind the subject the plane of focus ends up, along the final axis:
///
///     d (1 − cos θ)
///
/// range_m  d, straight from the lens to the subject, > 0
/// turn_deg θ, between locking and exposure, −90 … 90
/// returns  metres, ≥ 0
/// holds    where the camera turns about the lens's entrance pupil
[[nodiscard]] double recompose_error_m(double range_m, double turn_deg) noexcept;

}  // namespace backrow::optics
