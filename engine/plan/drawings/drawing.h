#pragma once

// What a drawing to scale is made of, before it has a scale. Metres; x to the right and y up on the
// paper. Seen from above (from_above.h), x is across and y is back from the mark; seen from the
// side (from_the_side.h), x lies along the ground away from the lens and y is up.

#include <algorithm>
#include <limits>
#include <optional>
#include <vector>

namespace backrow::plan {

struct DrawingPoint {
    double x_m = 0;
    double y_m = 0;
};

struct Line {
    DrawingPoint from;
    DrawingPoint to;
};

/// A rectangle round what is to be seen; empty until it takes a point.
struct Extent {
    DrawingPoint low{std::numeric_limits<double>::infinity(),
                     std::numeric_limits<double>::infinity()};
    DrawingPoint high{-std::numeric_limits<double>::infinity(),
                      -std::numeric_limits<double>::infinity()};

    [[nodiscard]] bool empty() const { return low.x_m > high.x_m || low.y_m > high.y_m; }
    [[nodiscard]] double width_m() const { return high.x_m - low.x_m; }
    [[nodiscard]] double height_m() const { return high.y_m - low.y_m; }

    /// Grows round everything within so far of this point.
    void take(const DrawingPoint& point, double round_m = 0) {
        low = {std::min(low.x_m, point.x_m - round_m), std::min(low.y_m, point.y_m - round_m)};
        high = {std::max(high.x_m, point.x_m + round_m), std::max(high.y_m, point.y_m + round_m)};
    }
};

/// From where to where faces are sharp enough, in one direction from the lens.
struct ZoneSlice {
    DrawingPoint near;
    DrawingPoint far;
};

/// Slices from one edge of the frame to the other, at even steps of the slope; nothing in a
/// direction in which no face is. Two neighbours that both have something make a quadrilateral
/// of the zone.
using DrawnZone = std::vector<std::optional<ZoneSlice>>;

}  // namespace backrow::plan
