#pragma once

// The chance that all faces are within the grade without drawing anything. Once it is settled where
// the focus landed and how far the camera swayed, people are independent and each holds with a
// difference of two normal distributions; the two common errors are integrated over.

#include "plan/odds/frame_model.h"

#include <optional>

namespace backrow::plan {

///     P = ∫ φ(a) ∫ φ(c) Π Φ-differences dc da
///
/// a  autofocus error, c  camera sway, each in its own standard deviations
/// returns  0 … 1, to about 1e-10; nothing where one spread is so much smaller than another that
///          the integral would take too long, or where the autofocus alone decides
[[nodiscard]] std::optional<double> all_sharp_by_integration(const FrameModel& model);

}  // namespace backrow::plan
