#pragma once

// What a photographer asks advice for, and with which lenses.

#include "plan/comparing/carried_lens.h"

#include "optics/blur/viewing.h"

#include <algorithm>
#include <cstddef>
#include <optional>
#include <vector>

namespace backrow::plan {

struct AdviceWanted {
    optics::Grade grade = optics::Grade::fine;  ///< crisp or fine.
    std::vector<CarriedLens> lenses{};          ///< At least one, scene_lens() if in doubt.
    double narrowest_f_number = 16;
    int most_move_cm = 30;             ///< ≥ 0
    std::optional<int> most_movers{};  ///< ≥ 0; none: movers_allowed() says.
    /// Every face still holds when anybody has drifted so far towards the camera or away from it.
    double margin_cm = 5;         ///< ≥ 0
    double least_distance_m = 0;  ///< Lens to the mark; the scene's own is always tried too.
    double greatest_distance_m = 0;
    bool after_crop =
        false;  ///< The grade must hold once the group fills the frame as it does now.
};

/// How many may be asked to move: as wanted, else a third of the group, at least one. More cannot
/// be placed to the centimetre on location. Common practice, no source.
[[nodiscard]] inline int movers_allowed(const AdviceWanted& wanted, std::size_t people) {
    return wanted.most_movers.value_or(std::max(1, static_cast<int>(people / 3)));
}

}  // namespace backrow::plan
