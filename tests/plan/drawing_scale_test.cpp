#include "plan/drawings/drawing_scale.h"

#include <catch2/catch.hpp>

#include <vector>

using namespace backrow::plan;
using Catch::Matchers::WithinAbs;

namespace {

Extent extent(double left, double low, double right, double high) {
    return {.low = {left, low}, .high = {right, high}};
}

constexpr ScreenArea area{.left = 100, .top = 50, .width = 400, .height = 300};

}  // namespace

// By hand: 8 m on 360 units and 2 m on 260 leave 45 units a metre.
TEST_CASE("a group is drawn as large as it fits, in the middle, as wide as it is long",
          "[plan][property]") {
    const DrawingScale scale = fitted(extent(-4, -1, 4, 1), area, 20);
    CHECK_THAT(scale.units_per_m, WithinAbs(45, 1e-12));
    const ScreenPoint middle = screen_from_paper(scale, {0, 0});
    CHECK_THAT(middle.x, WithinAbs(300, 1e-12));
    CHECK_THAT(middle.y, WithinAbs(200, 1e-12));
    const ScreenPoint back_right = screen_from_paper(scale, {4, 1});
    CHECK_THAT(back_right.x, WithinAbs(480, 1e-12));
    CHECK_THAT(back_right.y, WithinAbs(155, 1e-12));
}

TEST_CASE("a place on the screen is the place that was drawn there", "[plan][property]") {
    const DrawingScale scale = fitted(extent(-2, -9.4, 3, 2), area, 10);
    const DrawingPoint point = paper_from_screen(scale, screen_from_paper(scale, {1.25, -3.5}));
    CHECK_THAT(point.x_m, WithinAbs(1.25, 1e-12));
    CHECK_THAT(point.y_m, WithinAbs(-3.5, 1e-12));
    const Extent shown = shown_in(scale, area);
    CHECK(shown.low.y_m < -9.4);
    CHECK(shown.high.x_m > 3);
}

TEST_CASE("zooming keeps what is under the pointer there, and ends somewhere", "[plan][property]") {
    const DrawingScale scale = fitted(extent(-2, -9.4, 3, 2), area, 10);
    const ScreenPoint pointer{.x = 333, .y = 77};
    const DrawingPoint under = paper_from_screen(scale, pointer);
    DrawingScale closer = zoomed(scale, pointer, 3);
    CHECK_THAT(closer.units_per_m, WithinAbs(3 * scale.units_per_m, 1e-9));
    for (int turn = 0; turn < 100; ++turn)
        closer = zoomed(closer, pointer, 2);
    CHECK(closer.units_per_m == most_units_per_m);
    CHECK_THAT(paper_from_screen(closer, pointer).x_m, WithinAbs(under.x_m, 1e-9));
    CHECK_THAT(paper_from_screen(closer, pointer).y_m, WithinAbs(under.y_m, 1e-9));
    for (int turn = 0; turn < 100; ++turn)
        closer = zoomed(closer, pointer, 0.5);
    CHECK(closer.units_per_m == least_units_per_m);
    const ScreenPoint moved = screen_from_paper(panned(scale, 5, 7), under);
    CHECK_THAT(moved.x, WithinAbs(338, 1e-9));
    CHECK_THAT(moved.y, WithinAbs(84, 1e-9));
}

TEST_CASE("a single point and an area too small for its margins can be drawn", "[plan][property]") {
    CHECK(fitted(extent(1, 1, 1, 1), area, 20).units_per_m == most_units_per_m);
    const DrawingScale tiny = fitted(extent(0, 0, 1, 1), {.width = 12, .height = 12}, 20);
    CHECK_THAT(tiny.units_per_m, WithinAbs(4, 1e-12));
}

TEST_CASE("rulers have round numbers of metres that do not crowd", "[plan][property]") {
    const DrawingScale scale{.units_per_m = 40, .zero = {}};
    CHECK(ruler_marks_m(scale, -2.2, 5.1, 60) == std::vector<double>{-2, 0, 2, 4});
    CHECK(ruler_marks_m(scale, 0.05, 0.2, 60).size() <= 2);
    CHECK(ruler_marks_m({.units_per_m = 20'000, .zero = {}}, 0, 300, 1).size() <= 1000);
}
