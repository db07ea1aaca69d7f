#pragma once

// Evenly spread points: over a disc for the opening of a lens, over a square for everything else.

#include <cstdint>
#include <vector>

namespace backrow {

struct Point2 {
    double x = 0;
    double y = 0;
};

/// Turned about the origin, counter-clockwise.
[[nodiscard]] Point2 turned(const Point2& point, double angle_rad) noexcept;

/// count points spread evenly over the unit disc, ordered so that every stretch of them covers the
/// whole disc: a Vogel spiral walked with a stride near the golden section of count and prime to
/// it. The mean of r² is exactly ½, that of the full disc. Source: [VOGEL1979].
[[nodiscard]] std::vector<Point2> disc_points(int count);

/// Which turn of the spiral each of disc_points(count) is, 0 in the middle … count − 1 at the edge.
[[nodiscard]] std::vector<int> disc_point_turns(int count);

/// As many points again as these, which are those of disc_points() or have been doubled so before:
/// another such spiral, turned so that all together lie most evenly. Takes n·log n.
[[nodiscard]] std::vector<Point2> disc_points_between(const std::vector<Point2>& before);

/// Point number index of an endless sequence over [0, 1)², additive recurrence with the plastic
/// number. Source: [ROBERTS2018].
[[nodiscard]] Point2 square_point(std::uint64_t index) noexcept;

/// A unit-disc point carried to the regular polygon of the same area with one corner up: radii are
/// stretched so that rings become polygons and equal areas stay equal. sides ≥ 3.
///
/// roundness  0 straight sides … 1 the disc itself: between, the outline lies so far from the one
///            to the other, enlarged to keep the area
[[nodiscard]] Point2 polygon_from_disc(const Point2& in_disc, int sides,
                                       double roundness = 0) noexcept;

/// How far that outline is from the middle, in a direction so far from that of the middle of a
/// side, radians, at most half the angle of a side.
[[nodiscard]] double polygon_reach(int sides, double roundness, double from_side_rad) noexcept;

}  // namespace backrow
