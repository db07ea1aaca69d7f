#pragma once

// The least that people must move to hold at one lens, distance and f-number, over every focus.

#include "plan/advice/advice_focus.h"
#include "plan/advice/least_moves.h"

#include <cstddef>
#include <optional>
#include <vector>

namespace backrow::plan {

/// Bodies and backdrops; the same for every lens and distance.
struct Obstacles {
    std::vector<MoveRange> free;
    std::vector<RoomBetween> rooms;
    int most_cm = 0;
};

/// A focus and the moves that go with it.
struct Stance {
    std::optional<std::size_t> on;  ///< Whose nearer eye; none: at focus_m.
    double focus_m = 0;             ///< After the moves.
    std::vector<int> moves_cm;
    double worst_mm = 0;  ///< The largest blur.

    [[nodiscard]] int moved_cm() const;
};

enum class FocusKind { on_a_person, anywhere };

/// The stance with the least movement in all, and of those the least worst blur.
///
/// kind  where the focus may lie: on somebody, or at any distance
[[nodiscard]] std::optional<Stance> best_stance(const Viewpoint& at, const Demand& demand,
                                                const Obstacles& obstacles, FocusKind kind);

/// False only where no moves hold everybody with any focus nearer than this; costs much less than
/// the stance.
[[nodiscard]] bool may_hold_nearer(const Viewpoint& at, const Demand& demand,
                                   const Obstacles& obstacles, double focus_m);

}  // namespace backrow::plan
