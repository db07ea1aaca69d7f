#include "base/sequences.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

using namespace backrow;

namespace {

double mean_square_radius(const std::vector<Point2>& points) {
    double sum = 0;
    for (const Point2& point : points)
        sum += point.x * point.x + point.y * point.y;
    return sum / static_cast<double>(points.size());
}

}  // namespace

// A uniform disc of radius 1 has E[r²] = ½; the spiral's radii √((i + ½)/n) have it exactly.
TEST_CASE("lens points weigh the opening like a full disc", "[base][property]") {
    for (const int count : {1, 2, 7, 64, 256, 1021}) {
        const auto points = disc_points(count);
        REQUIRE(points.size() == static_cast<std::size_t>(count));
        CHECK(mean_square_radius(points) == Approx(0.5).epsilon(1e-12));
        for (const Point2& point : points)
            CHECK(std::hypot(point.x, point.y) <= 1.0);
    }
}

// n points cannot lie further apart than about the spacing of a hexagonal grid, √(2π/(√3 n)), and a
// Vogel spiral keeps them apart at about 0.8 of it [VOGEL1979]; no two may share a place.
// By counting points on one side of lines, against the area there. One spiral of as many points is
// the best that is known; those that were doubled four times lack up to a fifth more, and spirals
// turned by the golden section, which was tried, a third to a half.
TEST_CASE("lens points that are doubled lie nearly as evenly as one spiral", "[base][property]") {
    const auto uneven = [](const std::vector<Point2>& points) {
        double sum = 0;
        for (int direction = 0; direction < 36; ++direction)
            for (double height = -0.95; height < 1; height += 0.05) {
                const double angle = direction * std::numbers::pi / 36;
                const auto below = std::ranges::count_if(points, [&](const Point2& point) {
                    return point.x * std::sin(angle) + point.y * std::cos(angle) < height;
                });
                const double area = std::numbers::pi / 2 + height * std::sqrt(1 - height * height) +
                                    std::asin(height);
                const double off = static_cast<double>(below) / static_cast<double>(points.size()) -
                                   area / std::numbers::pi;
                sum += off * off;
            }
        return std::sqrt(sum);
    };
    std::vector<Point2> points = disc_points(8);
    for (const int count : {16, 32, 64, 128}) {
        const std::vector<Point2> between = disc_points_between(points);
        REQUIRE(between.size() == points.size());
        points.insert(points.end(), between.begin(), between.end());
        CAPTURE(count);
        CHECK(uneven(points) < 1.25 * uneven(disc_points(count)));
    }
}

TEST_CASE("no two lens points share a place", "[base][property]") {
    const auto points = disc_points(256);
    const double hexagonal = std::sqrt(2.0 * std::numbers::pi / (std::sqrt(3.0) * 256.0));
    for (std::size_t i = 0; i < points.size(); ++i)
        for (std::size_t k = i + 1; k < points.size(); ++k)
            CHECK(std::hypot(points[i].x - points[k].x, points[i].y - points[k].y) >
                  0.5 * hexagonal);
}

// The mean of any 32 following points should be near the middle: a random 32 would stray by
// √(½/32) = 0.125 as a standard deviation; an even set must do much better.
TEST_CASE("every stretch of lens points covers the whole opening", "[base][property]") {
    const auto points = disc_points(256);
    for (std::size_t first = 0; first + 32 <= points.size(); first += 16) {
        double x = 0;
        double y = 0;
        double square = 0;
        for (std::size_t i = first; i < first + 32; ++i) {
            x += points[i].x / 32.0;
            y += points[i].y / 32.0;
            square += (points[i].x * points[i].x + points[i].y * points[i].y) / 32.0;
        }
        CHECK(std::hypot(x, y) < 0.125);
        CHECK(square == Approx(0.5).margin(0.05));
    }
}

// Equidistribution over boxes: 1,000 points put 250 ± a few into each quarter.
TEST_CASE("pixel jitter fills the pixel evenly", "[base][property]") {
    int quarter[4] = {};
    for (std::uint64_t i = 0; i < 1000; ++i) {
        const Point2 point = square_point(i);
        CHECK(point.x >= 0.0);
        CHECK(point.x < 1.0);
        CHECK(point.y >= 0.0);
        CHECK(point.y < 1.0);
        ++quarter[(point.x < 0.5 ? 0 : 1) + (point.y < 0.5 ? 0 : 2)];
    }
    for (const int count : quarter)
        CHECK(count == Approx(250).margin(8));
}

// A regular polygon of n sides and area π has apothem √(π/(n tan(π/n))) and circumradius
// apothem/cos(π/n). Its second moment about the middle is (π/2)·apothem²·(1 + tan²(π/n)/3)/π.
TEST_CASE("blades make a polygon of the same area as the round opening", "[base][property]") {
    for (const int sides : {5, 6, 7, 9, 11}) {
        const double half = std::numbers::pi / sides;
        const double apothem = std::sqrt(half / std::tan(half));
        const double corner = apothem / std::cos(half);
        std::vector<Point2> points;
        for (const Point2& point : disc_points(20000)) {
            points.push_back(polygon_from_disc(point, sides));
            const double angle = std::atan2(points.back().x, points.back().y);
            const double within = std::remainder(angle - half, 2.0 * half);
            const double edge = apothem / std::cos(within);
            CHECK(std::hypot(points.back().x, points.back().y) <= edge * (1.0 + 1e-9));
            CHECK(edge <= corner * (1.0 + 1e-9));
        }
        const double expected = 0.5 * apothem * apothem * (1.0 + std::pow(std::tan(half), 2) / 3.0);
        CHECK(mean_square_radius(points) == Approx(expected).epsilon(2e-3));
    }
}
