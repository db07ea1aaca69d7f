#include "optics/blur/recompose.h"

#include "base/units.h"

#include <catch2/catch.hpp>

using namespace backrow;
using namespace backrow::optics;
using Catch::Matchers::WithinAbs;

// Geometry, d(1 − cos θ), worked out apart. Tolerance: half of the last digit written down,
// 0.0005 mm.
TEST_CASE("recomposing leaves the plane of focus behind the subject", "[optics][property]") {
    CHECK_THAT(mm_from_m(recompose_error_m(2, 5)), WithinAbs(7.611, 0.0005));
    CHECK_THAT(mm_from_m(recompose_error_m(2, 10)), WithinAbs(30.384, 0.0005));
    CHECK_THAT(mm_from_m(recompose_error_m(2, 20)), WithinAbs(120.615, 0.0005));
    CHECK_THAT(mm_from_m(recompose_error_m(3.048, 15)), WithinAbs(103.858, 0.0005));
}

TEST_CASE("the side to which the camera turns does not matter", "[optics][property]") {
    CHECK(recompose_error_m(3, 0) == 0);
    CHECK(recompose_error_m(3, -8) == recompose_error_m(3, 8));
}
