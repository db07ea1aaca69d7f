#pragma once

// How far people may step forward or back before they bump into each other or into what stands
// behind them, with bodies as solids.

#include "plan/advice/least_moves.h"
#include "scene/scene.h"

#include <vector>

namespace backrow::plan {

/// The rooms that steps of at most most_cm can use up; pairs that have more are left out.
///
/// Bodies may come as close as touching. Those that overlap already (neighbours' shoulders, a
/// couple) are closer than that by their own wish: they may come closer still until they stand side
/// by side, and beyond that may not overlap more. Whoever stands in a row stays behind all of the
/// rows before it. Since everybody moves along one line and bodies keep their shape, the shifts at
/// which two solids overlap are one stretch, and whoever stops before it has not stepped through
/// anybody.
[[nodiscard]] std::vector<RoomBetween> rooms_between(const std::vector<scene::Person>& people,
                                                     int most_cm);

/// How far each may step either way at most: most_cm, within standing_room(), and backwards no
/// further than to the backdrop behind.
[[nodiscard]] std::vector<MoveRange> free_ranges(const scene::Scene& scene, int most_cm);

}  // namespace backrow::plan
