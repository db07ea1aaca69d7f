#pragma once

// Straight, slanted edges of a picture, as boxes to measure them in.

#include "measure/pixel_box.h"

#include "base/image.h"

#include <cstddef>
#include <vector>

namespace backrow::measure {

inline constexpr int longest_edge_px = 240;  ///< Longer ones are cut into several boxes.

/// Boxes that hold a stretch each of an edge that leans by 2° to 20°, nearly upright or nearly
/// level, with as much on either side as is even, and that do not overlap. The clearest come first.
/// They are proposals: measure_edge() has the last word.
///
/// picture    linear light
/// most_boxes no more than so many
[[nodiscard]] std::vector<PixelBox> find_edges(const Image<float>& picture, std::size_t most_boxes);

}  // namespace backrow::measure
