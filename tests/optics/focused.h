#pragma once

#include "optics/lens/lens.h"

#include <catch2/catch.hpp>

namespace backrow::optics {

/// A perfect lens that can form an image.
inline Lens focused(double focal_length_mm, double f_number, double focus_m) {
    const auto lens = focused_lens(
        {.focal_length_mm = focal_length_mm, .f_number = f_number, .focus_m = focus_m});
    REQUIRE(lens);
    return *lens;
}

/// A fifty of this profile, focused at 3 m.
inline Lens fifty(double f_number, const LensProfile& profile = {}) {
    const auto lens = focused_lens(
        {.focal_length_mm = 50, .f_number = f_number, .focus_m = 3, .profile = profile});
    REQUIRE(lens);
    return *lens;
}

}  // namespace backrow::optics
