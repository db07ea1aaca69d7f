#pragma once

// Round numbers, for the rows of tables and the marks of axes.

#include <vector>

namespace backrow {

/// The multiples of 1, 2, 2.5 or 5 times a power of ten that lie in a range, ends included; of
/// these steps the smallest that gives no more than so many.
///
/// low, high  finite, low < high
/// at_most    ≥ 2
[[nodiscard]] std::vector<double> round_numbers(double low, double high, int at_most);

}  // namespace backrow
