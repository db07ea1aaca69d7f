#pragma once

// Straight stretches in space, and how close two of them come: what capsules are made of.

#include <glm/vec3.hpp>

namespace backrow::plan {

struct Segment {
    glm::dvec3 from_m;
    glm::dvec3 to_m;
};

/// The closest two points on two segments come, squared. Either may be a mere point.
[[nodiscard]] double closest_square_m2(const Segment& a, const Segment& b);

}  // namespace backrow::plan
