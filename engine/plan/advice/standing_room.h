#pragma once

// How far somebody may step forward or back on what they stand or sit on.

#include "plan/advice/least_moves.h"
#include "scene/scene.h"

#include <vector>

namespace backrow::plan {

/// The moves that leave everybody's feet on the level where they are: on their riser, or off the
/// risers before and behind them. Who sits on a step or shares a bench keeps the seat; a chair is
/// moved like feet. Whoever is carried has no feet of their own, and may go where the carrier does.
///
/// most_cm  ≥ 0, either way
/// returns  one for each person; staying is always allowed
[[nodiscard]] std::vector<MoveRange> standing_room(const std::vector<scene::Person>& people,
                                                   int most_cm);

}  // namespace backrow::plan
