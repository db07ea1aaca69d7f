#include "report/contours.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace backrow;
using namespace backrow::report;
using Catch::Matchers::WithinAbs;

namespace {

template <class Value> Field field_of(const Value& value) {
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
