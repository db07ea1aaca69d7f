#pragma once

// The fine lines of a face that are painted, not modelled: where years fold it, and the creases of
// its lips. Points are of the modelled head, millimetres; depths 0 … 1.

#include <glm/vec3.hpp>

namespace backrow::figures {

/// How deep a point lies in a line: of the forehead, between the brows, beside and below the eyes,
/// past the mouth. wander: −1 … 1, shifts the lines by up to a millimetre, so that none is drawn
/// with a ruler.
[[nodiscard]] double line_depth(const glm::dvec3& at_mm, double wander);

/// How much of the lips' red a point has, 0 off them.
[[nodiscard]] double lips_at(const glm::dvec3& at_mm);

/// How deep a point of the lips lies in one of their creases.
[[nodiscard]] double lip_crease(const glm::dvec3& at_mm);

}  // namespace backrow::figures
