#pragma once

#include "scene/limits.h"

#include <algorithm>

namespace backrow::rehearsal {

/// The value, or whichever end of the range it lies beyond.
[[nodiscard]] inline double kept_within(double value, const scene::Range<double>& range) {
    return std::clamp(value, range.least, range.greatest);
}

}  // namespace backrow::rehearsal
