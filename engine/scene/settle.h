#pragma once

// What people's bodies do because of where the others are: how far below a step their feet stand,
// where a carried child sits, whom a hand lies on.

#include "scene/scene.h"

#include <vector>

namespace backrow::scene {

/// Puts Pose::step_m, Pose::seating and Pose::holds right, and whoever is carried where the carrier
/// is. To be done again whenever somebody has moved; the same people settle in the same way.
///
/// A child on a hip sits on the side with more room to the next person, on the left where both have
/// as much. Eyes depend on no one's arms.
void settle(std::vector<Person>& people);

/// The person as they would stand with both arms left to themselves.
[[nodiscard]] Person hands_off(Person person);

/// Who is led when somebody is led: the one who carries them, or they themselves.
[[nodiscard]] std::size_t on_whose_feet(const std::vector<Person>& people, std::size_t person);

}  // namespace backrow::scene
