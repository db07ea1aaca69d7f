#pragma once

// What to mind before doing what an answer asks for: somebody could get hurt.

#include "scene/scene.h"

#include <string>
#include <vector>

namespace backrow::plan {

/// In the order in which they are told.
enum class Caution {
    photographer_steps_back,  ///< The camera stands farther away than now.
    somebody_steps_back,      ///< Somebody stands farther back than now, on their own feet.
    moves_on_something,       ///< Somebody is asked to move who stands above the ground.
    moves_with_a_child,       ///< Somebody is asked to move who carries a child.
};

/// Each once.
///
/// now   the scene as it is
/// then  the same people after the answer
[[nodiscard]] std::vector<Caution> cautions(const scene::Scene& now, const scene::Scene& then);

/// A sentence that defers to the rules of the place. Common practice, no source.
[[nodiscard]] std::string to_words(Caution caution);

}  // namespace backrow::plan
