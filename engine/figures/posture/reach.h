#pragma once

// Whether an arm reaches somewhere, and how: two bones, joints that bend as far as joints do, and
// round what is in the way.

#include "figures/figure.h"
#include "figures/posture/spots.h"

#include <optional>
#include <span>

namespace backrow::figures {

/// How far joints go, degrees from the neutral position. [AAOS1965], from memory; of the shoulder's
/// 45° backwards with the arm level and 60° with the arm hanging, the mean.
inline constexpr double elbow_flexion_deg = 150;
inline constexpr double shoulder_backwards_deg = 52;

/// The palm laid on a spot, or where the arm is too short for that the fingers.
///
/// side      of the person who reaches, 0 left, 1 right
/// fingers   where they point, as near as the spot's surface allows; need not be unit
/// round_m   what the arm must go round, such as the body that the spot is on; hand and wrist lie
///           against it. The own trunk is gone round in any case
/// returns   nothing where the arm is too short, or only a broken joint or a way through a body
///           would do
[[nodiscard]] std::optional<Hold> reach(const Person& person, int side, const Spot& spot,
                                        const glm::dvec3& fingers,
                                        std::span<const Capsule> round_m);

}  // namespace backrow::figures
