#pragma once

// What to mind, for somebody could get hurt: before doing what an answer asks for, and at the shoot
// itself.

#include "plan/faces/sun_checks.h"
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
    people_raised,            ///< Somebody stands or sits above the ground, on their own.
    camera_raised,            ///< Nobody holds a camera so high who stands on the ground.
    water_near,               ///< The backdrop is water or a beach.
    sun_in_picture,           ///< The sun stands in the frame.
    traffic_near,             ///< The backdrop is a street.
    child_carried,            ///< Somebody is carried.
};

/// Higher than this no camera is held from the ground. Common practice, no source.
inline constexpr double highest_held_m = 2.0;

/// Each once.
///
/// now   the scene as it is
/// then  the same people after the answer
[[nodiscard]] std::vector<Caution> cautions(const scene::Scene& now, const scene::Scene& then);

/// What the scene itself calls for, each once: the last six. Photographs and models are not asked
/// what they show.
///
/// checks  sun_checks() of this scene
[[nodiscard]] std::vector<Caution> shoot_cautions(const scene::Scene& scene,
                                                  const SunChecks& checks);

/// A sentence that defers to the rules of the place. Common practice, no source.
[[nodiscard]] std::string to_words(Caution caution);

}  // namespace backrow::plan
