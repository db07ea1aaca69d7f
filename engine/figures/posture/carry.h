#pragma once

// Carrying a child: where it sits on whoever carries it, and what the arms of both do.

#include "figures/figure.h"

#include <array>
#include <optional>

namespace backrow::figures {

/// Children taller than this are not carried, nor those taller than this share of whoever would
/// carry them. By eye: at 1.25 m children are seven years old and weigh 24 kg (from memory).
inline constexpr double tallest_carried_m = 1.25;
inline constexpr double tallest_carried_share = 0.75;

struct Carrying {
    Pose child;  ///< With seating and holds; turned as the carrier is.
    std::array<std::optional<Hold>, 2> holds;  ///< The carrier's.
};

/// The carrier stands; both are in one figure space. The child's own head turn and leans stay.
///
/// child     its posture says whether it sits on a hip or on the shoulders
/// side      which hip, +1 the left, −1 the right
[[nodiscard]] Carrying carry(const Person& carrier, const Person& child, double side);

}  // namespace backrow::figures
