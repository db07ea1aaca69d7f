#include "shapes/quantise.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>

namespace backrow::shapes {

TEST_CASE("a colour channel survives sixteen bits and back", "[shapes][property]") {
    for (int step = 0; step <= 65535; ++step) {
        const float read_back = static_cast<float>(step) / 65535.0f;
        REQUIRE(unorm16_from_unit(read_back) == step);
    }
}

// Tolerance: half a step of 1/65535, and the float's own rounding of values up to 65535, 2⁻⁸ steps.
TEST_CASE("a colour channel moves by half a step at most", "[shapes][property]") {
    for (int i = 0; i <= 1000; ++i) {
        const float unit = static_cast<float>(i) / 1000.0f;
        const double steps = 65535.0 * static_cast<double>(unit);
        CHECK(std::abs(unorm16_from_unit(unit) - steps) <= 0.5 + 1.0 / 256);
    }
}

TEST_CASE("a channel out of range goes to the nearer end", "[shapes][property]") {
    CHECK(unorm16_from_unit(-0.5f) == 0);
    CHECK(unorm16_from_unit(1.5f) == 65535);
    CHECK(unorm16_from_unit(std::numeric_limits<float>::infinity()) == 65535);
    CHECK(unorm16_from_unit(std::numeric_limits<float>::quiet_NaN()) == 0);
}

}  // namespace backrow::shapes
