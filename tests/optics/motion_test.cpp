#include "optics/blur/motion.h"

#include "base/units.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace backrow;
using namespace backrow::optics;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

// b = m v t with m = f/(s − f) [JACOBSON] section 4, worked out apart for three walkers. Tolerance:
// half of the last digit written down.
TEST_CASE("somebody who walks across the picture draws a streak of m·v·t", "[optics][published]") {
    CHECK_THAT(um_from_mm(streak_mm(50.0 / 2950, 1.4, 1.0 / 125)), WithinAbs(189.8, 0.05));
    CHECK_THAT(um_from_mm(streak_mm(85.0 / 3915, 0.5, 1.0 / 250)), WithinAbs(43.42, 0.005));
    CHECK_THAT(um_from_mm(streak_mm(35.0 / 1965, 1.0, 1.0 / 60)), WithinAbs(296.9, 0.05));
}

// Counted apart: rays from every point of a disc, shifted to every point of a streak. The grid of
// 200 × 200 × 200 cells meets the second moments to about 1 in 10 000.
TEST_CASE("a disc drawn out into a streak has the second moment of both", "[optics][property]") {
    constexpr double spot = 0.03, streak = 0.05;
    constexpr int cells = 200;
    double moment = 0;
    int inside = 0;
    for (int i = 0; i < cells; ++i)
        for (int j = 0; j < cells; ++j) {
            const double x = spot * ((i + 0.5) / cells - 0.5);
            const double y = spot * ((j + 0.5) / cells - 0.5);
            if (std::hypot(x, y) > spot / 2)
                continue;
            ++inside;
            for (int k = 0; k < cells; ++k) {
                const double shifted = x + streak * ((k + 0.5) / cells - 0.5);
                moment += (shifted * shifted + y * y) / cells;
            }
        }
    const double diameter = std::sqrt(8 * moment / inside);
    CHECK_THAT(spot_with_streak_mm(spot, streak), WithinRel(diameter, 5e-4));
}

TEST_CASE("whoever stands still has the spot of the lens alone", "[optics][property]") {
    CHECK(streak_mm(0.02, 0, 0.004) == 0);
    CHECK(spot_with_streak_mm(0.03, 0) == 0.03);
}
