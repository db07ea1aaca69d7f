#pragma once

// Arms and legs of a posture, hung onto a trunk that stands where it will stay.

#include "figures/posture/skeleton.h"

namespace backrow::figures {

/// About the upright; + turns forward (+z) towards the person's left (+x).
[[nodiscard]] Axes turned(double deg);

/// The middle joint of two bones from `root` to `end`, on the side of `hint`; an end out of reach
/// is pulled in.
[[nodiscard]] glm::dvec3 bend(const glm::dvec3& root, glm::dvec3& end, double first_m,
                              double second_m, const glm::dvec3& hint);

/// Which leg somebody stands on, by name: −1 the right one, +1 the left one, 0 both.
[[nodiscard]] int weight_leg(const Person& person);

/// How far the body of a child on a hip is turned towards the one who carries it, the head apart.
[[nodiscard]] double twist_deg(const Pose& pose);

/// The legs of whoever is carried, from hips that are in place.
void place_carried_legs(Skeleton& skeleton, const Person& person);

/// `turn` is the body's own turn. Legs come first: hands rest on thighs.
void place_legs(Skeleton& skeleton, const Person& person, const Axes& turn);
void place_arms(Skeleton& skeleton, const Person& person, const Axes& turn);

}  // namespace backrow::figures
