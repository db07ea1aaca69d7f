#pragma once

// Places on a clothed body where a hand may lie. Figure space, metres.

#include "figures/figure.h"

namespace backrow::figures {

struct Spot {
    glm::dvec3 at_m;
    glm::dvec3 out;  ///< Unit, off the cloth.
};

/// side    0 left, 1 right
/// across  0 at the spine … 1 at the joint of that shoulder, beyond it over the muscle
/// up      0 at the hips … 1 as high as the shoulder joints
[[nodiscard]] Spot on_the_back(const Person& person, int side, double across, double up);

/// The same on the chest.
[[nodiscard]] Spot on_the_chest(const Person& person, int side, double across, double up);

/// On top of a shoulder, between the neck and the joint.
[[nodiscard]] Spot on_the_shoulder(const Person& person, int side);

/// Where the neck meets the shoulders, and the person's own directions: left, up, forward.
struct Bearing {
    glm::dvec3 shoulders_m;  ///< Half way between the joints.
    glm::dvec3 left, up, forward;
    double shoulder_half_m = 0;  ///< From there to each joint.
    double hips_to_shoulders_m = 0;
};
[[nodiscard]] Bearing bearing(const Person& person);

}  // namespace backrow::figures
