#pragma once

// Light that falls off over a box, as a lamp's does or a lens's towards its corners, takes the same
// share of both sides of an edge.

#include "measure/edge_line.h"

#include "base/image.h"

namespace backrow::measure {

/// The box as if it were evenly lit, where the plateaus leave no doubt of the fall; else as it is.
/// Across the edge the fall would count as blur, and along it ends of the edge that one side of the
/// box does not reach would make that side another.
///
/// line  of the edge in the box
[[nodiscard]] Image<float> evenly_lit(const Image<float>& box, const EdgeLine& line);

}  // namespace backrow::measure
