#pragma once

// Lines of equal value through a field of numbers, and the regions that they bound.

#include "base/sequences.h"

#include <cstddef>
#include <vector>

namespace backrow::report {

/// Numbers at the corners of a net of squares, row by row. At least 2 × 2, all finite.
struct Field {
    std::size_t columns = 0;
    std::size_t rows = 0;
    std::vector<double> values{};

    [[nodiscard]] double at(std::size_t column, std::size_t row) const {
        return values[row * columns + column];
    }
};

/// Points in columns and rows: (0, 0) is the first corner, (columns − 1, rows − 1) the last.
struct Curve {
    std::vector<Point2> points{};
    bool closed = false;  ///< The last point joins the first, which is not repeated.
};

/// Where the field has this value, each line in one piece; it ends at the border of the net or
/// nowhere. Linear between corners. Where a square could be crossed in two ways, the mean of its
/// corners decides.
[[nodiscard]] std::vector<Curve> level_curves(const Field& field, double level);

/// The outline of where the field is at or above this value, border of the net included: closed
/// curves, of which an odd number lies round each point of the region.
[[nodiscard]] std::vector<Curve> region_above(const Field& field, double level);

}  // namespace backrow::report
