#pragma once

// Where a straight edge runs through a box of a picture.

#include "base/image.h"

#include <optional>

namespace backrow::measure {

/// x = at_px + lean · y of an edge that is nearly upright, (0, 0) the box's top-left corner and
/// pixel i covering [i, i + 1).
struct EdgeLine {
    double at_px = 0;
    double lean = 0;
    double sagitta_px = 0;        ///< How far the edge bulges from the line at the middle, ±.
    double sagitta_error_px = 0;  ///< Standard error of that.
    double scatter_px = 0;        ///< Of the rows' edges about the line, standard deviation.

    [[nodiscard]] double x_px(double y_px) const noexcept { return at_px + lean * y_px; }
};

/// Whether the brightness changes more across than down.
[[nodiscard]] bool edge_is_upright(const Image<float>& box) noexcept;

/// The line through all rows, from the area of each row that is brighter than the middle. Good to a
/// fraction of a pixel; nothing where there is no step.
[[nodiscard]] std::optional<EdgeLine> rough_edge_line(const Image<float>& box);

/// The line through the centroids of the rows' derivatives, each within reach_px of where the line
/// before has it. Nothing where fewer than half of the rows hold so much of the edge.
///
/// source  [ISO12233]
[[nodiscard]] std::optional<EdgeLine> centroid_edge_line(const Image<float>& box,
                                                         const EdgeLine& before, double reach_px);

}  // namespace backrow::measure
