#pragma once

// Settings and small moves that keep every face within the wanted grade, with the background as
// blurred as can be.
//
// What is searched, exactly: every lens carried, every third stop that it has, every whole
// centimetre of distance, focus on everybody's nearer eye in turn or somewhere between, and moves
// forward or back of whole centimetres. DEVELOPERS.md says why none of them is missed.

#include "plan/advice/advice_answer.h"
#include "plan/advice/advice_wanted.h"
#include "scene/scene.h"

#include <functional>
#include <optional>
#include <vector>

namespace backrow::plan {

struct Advice {
    std::vector<Answer> answers;  ///< Most background blur first; empty where nothing is possible.
    std::optional<Answer> nearest;  ///< Then: the least worst blur.
};

/// share  0 … 1; returns whether to go on
using GoOn = std::function<bool(double share)>;

/// Nothing where it was told to stop.
[[nodiscard]] std::optional<Advice> advise(const scene::Scene& scene, const AdviceWanted& wanted,
                                           const GoOn& go_on);

}  // namespace backrow::plan
