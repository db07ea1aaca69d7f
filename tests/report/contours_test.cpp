#include "report/drawing/contours.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

using namespace backrow;
using namespace backrow::report;
using Catch::Matchers::WithinAbs;

namespace {

template <class Value>
Field field_of(const Value& value) {
    Field field{.columns = 41, .rows = 41};
    for (int row = 0; row < 41; ++row)
        for (int column = 0; column < 41; ++column)
            field.values.push_back(value(column, row));
    return field;
}

double area(const Curve& curve) {
    double twice = 0;
    for (std::size_t i = 0; i < curve.points.size(); ++i) {
        const Point2& a = curve.points[i];
        const Point2& b = curve.points[(i + 1) % curve.points.size()];
        twice += a.x * b.y - b.x * a.y;
    }
    return std::abs(twice) / 2;
}

}  // namespace

TEST_CASE("a slope is crossed in one line from border to border", "[report][property]") {
    const Field slope = field_of([](double x, double y) { return x + 2 * y; });
    const auto curves = level_curves(slope, 50.3);
    REQUIRE(curves.size() == 1);
    CHECK_FALSE(curves[0].closed);
    for (const Point2& point : curves[0].points)
        CHECK_THAT(point.x + 2 * point.y, WithinAbs(50.3, 1e-9));
    CHECK(level_curves(slope, 500).empty());
}

// The field is linear between corners, so that the line lies off the circle by at most 1/(8·12) of
// a square along an edge of the net and twice that across it, 0.02; the area by as much all round.
TEST_CASE("a hill has a closed line round it", "[report][property]") {
    const Field hill = field_of([](double x, double y) { return -std::hypot(x - 20, y - 20); });
    const auto curves = level_curves(hill, -12.3);
    REQUIRE(curves.size() == 1);
    CHECK(curves[0].closed);
    for (const Point2& point : curves[0].points)
        CHECK_THAT(std::hypot(point.x - 20, point.y - 20), WithinAbs(12.3, 0.02));
    const auto region = region_above(hill, -12.3);
    REQUIRE(region.size() == 1);
    CHECK_THAT(area(region[0]),
               WithinAbs(std::numbers::pi * 12.3 * 12.3, 2 * std::numbers::pi * 12.3 * 0.02));
}

TEST_CASE("a region that reaches the border runs along it", "[report][property]") {
    const auto half = region_above(field_of([](double x, double) { return x; }), 30);
    REQUIRE(half.size() == 1);
    CHECK_THAT(area(half[0]), WithinAbs(10 * 40, 1e-9));
}

// The ring between radius 6.2 and 14.7 about the middle; tolerances as above, at either rim.
TEST_CASE("a ring has a line within and one without, and the region lies between",
          "[report][property]") {
    const Field ring =
        field_of([](double x, double y) { return -std::abs(std::hypot(x - 20, y - 20) - 10.45); });
    const auto curves = level_curves(ring, -4.25);
    REQUIRE(curves.size() == 2);
    CHECK((curves[0].closed && curves[1].closed));
    const auto region = region_above(ring, -4.25);
    REQUIRE(region.size() == 2);
    const double outer = std::max(area(region[0]), area(region[1]));
    const double inner = std::min(area(region[0]), area(region[1]));
    CHECK_THAT(outer,
               WithinAbs(std::numbers::pi * 14.7 * 14.7, 2 * std::numbers::pi * 14.7 * 0.03));
    CHECK_THAT(inner, WithinAbs(std::numbers::pi * 6.2 * 6.2, 2 * std::numbers::pi * 6.2 * 0.03));
}

TEST_CASE("where two slopes meet in a saddle the lines pass it without touching",
          "[report][property]") {
    const Field saddle = field_of([](double x, double y) { return (x - 20.5) * (y - 20.5); });
    for (const double level : {0.1, -0.1}) {
        const auto curves = level_curves(saddle, level);
        REQUIRE(curves.size() == 2);
        for (const Curve& curve : curves) {
            CHECK_FALSE(curve.closed);
            // Each stays in one of two opposite quarters.
            const double side = curve.points.front().x - 20.5;
            for (const Point2& point : curve.points)
                CHECK((point.x - 20.5) * side > 0);
        }
    }
}

TEST_CASE("a field above the value everywhere is all region and no line", "[report][property]") {
    const Field flat = field_of([](double, double) { return 7.0; });
    CHECK(level_curves(flat, 3).empty());
    const auto all = region_above(flat, 3);
    REQUIRE(all.size() == 1);
    CHECK_THAT(area(all[0]), WithinAbs(40 * 40, 1e-9));
    CHECK(region_above(flat, 9).empty());
}
