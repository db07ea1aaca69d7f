#pragma once

// Where something that rises to one summit and falls behind it is highest.

#include <algorithm>

namespace backrow::figures {

struct Summit {
    int at;
    double value;
};

/// Among the whole numbers from first to last the one with the greatest value, the first if there
/// are several: every thirtieth is looked at, and then all about the highest of these.
///
/// value_at    int → double; within thirty of its summit it may tremble
template <class ValueAt>
[[nodiscard]] Summit summit(int first, int last, const ValueAt& value_at) {
    constexpr int stride = 30;
    const auto highest = [&](int from, int to, int step) {
        Summit best{from, value_at(from)};
        for (int at = from + step; at <= to; at += step)
            if (const double value = value_at(at); value > best.value)
                best = {at, value};
        return best;
    };
    const int near = highest(first, last, stride).at;
    return highest(std::max(first, near - stride), std::min(last, near + stride), 1);
}

}  // namespace backrow::figures
