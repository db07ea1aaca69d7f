#pragma once

// What people stand and sit on: risers, steps, benches and seats, worked out from who is where.

#include "scene/scene.h"

#include "setting/surroundings.h"

#include <vector>

namespace backrow::scene {

/// Blocks under everybody who stands above the ground and under everybody who sits.
///
/// A raised row has one riser, from a little in front of its feet to the row behind it, or half a
/// metre deep; where heights differ within a row, one riser for each run of neighbours at the same
/// height. People placed alone have little steps, shared where they touch at the same height. Seats
/// end in front of the calves; neighbours of one row share a bench where they sit at the same
/// height and nobody's legs are in the way.
///
/// returns   blocks in the order of rows, then of people placed alone, then seats; none is empty
[[nodiscard]] std::vector<setting::Block> blocks_under(const std::vector<Person>& people);

}  // namespace backrow::scene
