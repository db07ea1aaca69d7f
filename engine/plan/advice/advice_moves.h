#pragma once

// The least that people must move to hold at one lens, distance and f-number, over every focus.

#include "plan/advice/advice_focus.h"
#include "plan/advice/least_moves.h"

#include <compare>
#include <cstddef>
#include <optional>
#include <vector>

namespace backrow::plan {

/// Bodies and backdrops, and who may be asked; the same for every lens and distance.
struct Obstacles {
    std::vector<MoveRange> free;
    std::vector<RoomBetween> rooms;
    int most_cm = 0;
    int most_movers = 0;
    std::vector<bool> is_carried;  ///< Moves as the carrier does, and is not asked.
};

/// What moves ask for: fewer people count for more than shorter ways.
struct Effort {
    int movers = 0;
    int cm = 0;  ///< Sum of all ways.

    auto operator<=>(const Effort&) const = default;
};

/// A focus and the moves that go with it.
struct Stance {
    std::optional<std::size_t> on;  ///< Whose nearer eye; none: at focus_m.
    double focus_m = 0;             ///< After the moves.
    std::vector<int> moves_cm;
    Effort effort{};
};

enum class FocusKind { on_a_person, anywhere };

/// The stance with the least effort, and of those the nearest focus: it blurs the background most.
///
/// kind  where the focus may lie: on somebody, or at any distance
[[nodiscard]] std::optional<Stance> best_stance(const Viewpoint& at, const Demand& demand,
                                                const Obstacles& obstacles, FocusKind kind);

/// False only where no moves hold everybody with any focus nearer than this; costs much less than
/// the stance.
[[nodiscard]] bool may_hold_nearer(const Viewpoint& at, const Demand& demand,
                                   const Obstacles& obstacles, double focus_m);

}  // namespace backrow::plan
