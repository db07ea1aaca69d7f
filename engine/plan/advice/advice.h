#pragma once

// Settings and small moves that keep every face within the wanted grade, also when anybody drifts a
// little, with the background as blurred as can be, and right for the light.
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

/// What became of a lens that was carried.
struct LensOutcome {
    struct Best {
        double f_number = 0;
        double lens_to_mark_m = 0;
        double background_percent = 0;  ///< Background::percent_of_height.
    };

    CarriedLens lens;
    bool is_perfect = false;             ///< Nothing is known of its faults.
    std::vector<std::size_t> answers{};  ///< Which of Advice::answers are through it.
    std::optional<Best> best{};          ///< Its most blurred background; none where nothing holds.
    bool loses_faces = false;  ///< Somewhere it would hold, but cut somebody off or hide them.
};

struct Advice {
    std::vector<Answer> answers;  ///< Most background blur first; empty where nothing is possible.
    std::optional<Answer> nearest;      ///< Then: the least worst blur.
    std::vector<LensOutcome> lenses{};  ///< One for each of AdviceWanted::lenses.
};

/// Those of all answers and of the nearest miss, each once, in their order.
[[nodiscard]] std::vector<Caution> all_cautions(const Advice& advice);

/// share  0 … 1; returns whether to go on
using GoOn = std::function<bool(double share)>;

/// Nothing where it was told to stop.
[[nodiscard]] std::optional<Advice> advise(const scene::Scene& scene, const AdviceWanted& wanted,
                                           const GoOn& go_on);

}  // namespace backrow::plan
