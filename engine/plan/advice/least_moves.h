#pragma once

// The least that people must move, forward or back, so that each stands where wanted and nobody
// passes through whoever is before or behind.
//
// Everything is counted in whole centimetres, which is how finely somebody can be asked to move;
// + is away from the camera.

#include <cstddef>
#include <optional>
#include <vector>

namespace backrow::plan {

/// Moves after which somebody stands well, from … to, inclusive; none where from > to.
struct MoveRange {
    int from_cm = 0;
    int to_cm = 0;
};

/// Nobody may come closer than there is room: move[behind] − move[front] ≥ −room_cm.
struct RoomBetween {
    std::size_t front = 0;
    std::size_t behind = 0;
    int room_cm = 0;  ///< ≥ 0, so that staying is always allowed.
};

/// Of all moves that keep every range and every room, those in which everybody moves the least.
///
/// No choice is left between sparing one person and sparing another: some set of moves spares all
/// of them at once (shown above the function), and it takes no more than shortest paths.
///
/// returns  one move for each range, centimetres; nothing where no moves will do
[[nodiscard]] std::optional<std::vector<int>> least_moves(const std::vector<MoveRange>& ranges,
                                                          const std::vector<RoomBetween>& rooms);

}  // namespace backrow::plan
