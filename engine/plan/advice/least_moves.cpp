#include "plan/advice/least_moves.h"

#include <algorithm>

namespace backrow::plan {
namespace {

using Moves = std::vector<int>;

/// Pushes on: whoever must go back takes those behind along once the room is used up, and whoever
/// must come forward those in front. Ends because rooms are ≥ 0: no chain pushes its own start on.
void push_along(Moves& back, Moves& forward, const std::vector<RoomBetween>& rooms) {
    for (bool pushed = true; pushed;) {
        pushed = false;
        for (const RoomBetween& room : rooms) {
            const int least_back = back[room.front] - room.room_cm;
            const int least_forward = forward[room.behind] + room.room_cm;
            pushed =
                pushed || back[room.behind] < least_back || forward[room.front] > least_forward;
            back[room.behind] = std::max(back[room.behind], least_back);
            forward[room.front] = std::min(forward[room.front], least_forward);
        }
    }
}

}  // namespace

// Let p ≥ 0 be the least moves back that the lower ends of the ranges and the chains of rooms
// enforce, q ≤ 0 the least moves forward that the upper ends enforce; longest and shortest paths.
// Any moves y that will do have y ≥ p wherever p > 0 and y ≤ q wherever q < 0. So if any will do,
// nobody has both p > 0 and q < 0, and |y| ≥ |p + q| for everybody. And then p + q will do: take a
// room r between a in front and b behind.
//   - p(a) > 0 and q(b) < 0: q(b) ≥ y(b) ≥ y(a) − r ≥ p(a) − r.
//   - both move back, or both forward, or one stays: p(b) ≥ p(a) − r and q(a) ≤ q(b) + r, by how
//     they were found.
//   - a moves forward and b back: they part, and r ≥ 0.
// Hence no moves will do exactly where p + q does not, and p + q is the least for each person.
std::optional<std::vector<int>> least_moves(const std::vector<MoveRange>& ranges,
                                            const std::vector<RoomBetween>& rooms) {
    Moves back, forward;
    for (const MoveRange& range : ranges) {
        back.push_back(std::max(0, range.from_cm));
        forward.push_back(std::min(0, range.to_cm));
    }
    push_along(back, forward, rooms);

    Moves moves(ranges.size());
    for (std::size_t i = 0; i < ranges.size(); ++i) {
        moves[i] = back[i] + forward[i];
        const bool pushed_both_ways = back[i] > 0 && forward[i] < 0;
        if (pushed_both_ways || moves[i] < ranges[i].from_cm || moves[i] > ranges[i].to_cm)
            return std::nullopt;
    }
    const bool room_kept = std::ranges::all_of(rooms, [&](const RoomBetween& room) {
        return moves[room.behind] - moves[room.front] >= -room.room_cm;
    });
    return room_kept ? std::optional{std::move(moves)} : std::nullopt;
}

}  // namespace backrow::plan
