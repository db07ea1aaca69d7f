#include "measure/difference.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace backrow;
using namespace backrow::measure;

TEST_CASE("a picture does not differ from itself", "[measure][property]") {
    const Image<Rgb8> grey{70, 50, {90, 90, 90}};
    const Difference none = difference(grey, grey);
    CHECK(none.mean_square == 0);
    CHECK(none.worst_mean_square == 0);
    CHECK(std::isinf(decibels(none.mean_square)));
}

// One pixel of 70 × 50, five steps off in one channel of three.
TEST_CASE("the mean is over all pixels, the worst place over its own", "[measure][property]") {
    const Image<Rgb8> grey{70, 50, {90, 90, 90}};
    Image<Rgb8> other = grey;
    other.at(69, 49) = {90, 95, 90};
    const Difference one = difference(grey, other);
    CHECK(one.mean_square == Approx(25.0 / (3 * 70 * 50)));
    // In the last corner squares are cut off: 6 × 18 pixels.
    CHECK(one.worst_mean_square == Approx(25.0 / (3 * 6 * 18)));
}

// From the definition 10·log10(255²/mean square): a mean square of 1 gives 48.13 dB.
TEST_CASE("one step everywhere is 48.1 decibels", "[measure][property]") {
    CHECK(decibels(1.0) == Approx(48.13).margin(0.005));
    CHECK(decibels(255.0 * 255.0) == Approx(0).margin(1e-9));
}
