#pragma once

// What a drawing to scale is made of, before it has a scale. Metres; x to the right and y up on the
// paper. Seen from above (from_above.h), x is across and y is back from the mark; seen from the
// side (from_the_side.h), x lies along the ground away from the lens and y is up.

#include <algorithm>
#include <limits>
#include <optional>
#include <vector>

namespace backrow::rehearsal {

struct Spot {
    double x_m = 0;
    double y_m = 0;
};

struct Line {
    Spot from;
    Spot to;
};

/// A rectangle that holds what is to be seen; empty until it takes a spot.
struct Extent {
    Spot low{std::numeric_limits<double>::infinity(), std::numeric_limits<double>::infinity()};
    Spot high{-std::numeric_limits<double>::infinity(), -std::numeric_limits<double>::infinity()};

    [[nodiscard]] bool empty() const { return low.x_m > high.x_m || low.y_m > high.y_m; }
    [[nodiscard]] double width_m() const { return high.x_m - low.x_m; }
    [[nodiscard]] double height_m() const { return high.y_m - low.y_m; }

    /// Grows to hold everything within so far of this spot.
    void take(const Spot& spot, double round_m = 0) {
        low = {std::min(low.x_m, spot.x_m - round_m), std::min(low.y_m, spot.y_m - round_m)};
        high = {std::max(high.x_m, spot.x_m + round_m), std::max(high.y_m, spot.y_m + round_m)};
    }
};

/// Where faces hold in one direction from the lens.
struct HeldSlice {
    Spot near;
    Spot far;
};

/// Slices from one edge of the frame to the other, at even steps of the slope; nothing in a
/// direction in which no face holds. Two neighbours that both have something make a quadrilateral
/// of the zone.
using HeldZone = std::vector<std::optional<HeldSlice>>;

}  // namespace backrow::rehearsal
