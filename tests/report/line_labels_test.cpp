#include "report/drawing/line_labels.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

using namespace backrow;
using namespace backrow::report;
using Catch::Matchers::WithinAbs;

namespace {

constexpr Frame wide{.left = 0, .top = 0, .right = 400, .bottom = 300};
constexpr double width_px = 60;
constexpr double height_px = 8;

std::vector<Point2> straight(const Point2& from, const Point2& to) {
    return {from, to};
}

std::optional<LabelPlace> place_on(const std::vector<Point2>& line, double wish = 0.5,
                                   const std::vector<Obstacle>& taken = {},
                                   const std::vector<Obstacle>& lines = {}) {
    return label_place(line, width_px, height_px, wish, wide, taken, lines);
}

double length(const std::vector<std::vector<Point2>>& pieces) {
    double sum_px = 0;
    for (const auto& piece : pieces)
        for (std::size_t i = 1; i < piece.size(); ++i)
            sum_px += std::hypot(piece[i].x - piece[i - 1].x, piece[i].y - piece[i - 1].y);
    return sum_px;
}

/// The least distance between the inked part of a label and a spot.
double clearance(const LabelPlace& place, const Obstacle& spot) {
    const double along = (spot.middle.x - place.middle.x) * std::cos(place.climb_rad) -
                         (spot.middle.y - place.middle.y) * std::sin(place.climb_rad);
    const double across = (spot.middle.x - place.middle.x) * std::sin(place.climb_rad) +
                          (spot.middle.y - place.middle.y) * std::cos(place.climb_rad);
    return std::hypot(std::max(0.0, std::abs(along) - width_px / 2),
                      std::max(0.0, std::abs(across) - height_px / 2)) -
           spot.radius_px;
}

}  // namespace

// Places are tried every 3 px, so the middle is within 1.5 px of the wish.
TEST_CASE("a free straight line is labelled where it is wished, along the line",
          "[report][property]") {
    const auto down = place_on(straight({20, 50}, {380, 230}), 0.3);
    REQUIRE(down);
    CHECK_THAT(down->middle.x, WithinAbs(20 + 0.3 * 360, 1.5));
    CHECK_THAT(down->middle.y, WithinAbs(50 + 0.3 * 180, 1.5));
    CHECK_THAT(down->climb_rad, WithinAbs(-std::atan2(180, 360), 1e-9));
}

TEST_CASE("a label is never upside down, whichever way its line runs", "[report][property]") {
    for (int i = 0; i < 24; ++i) {
        const double turn = i * std::numbers::pi / 12;
        const Point2 half{110 * std::cos(turn), 110 * std::sin(turn)};
        const auto place =
            place_on(straight({200 - half.x, 150 - half.y}, {200 + half.x, 150 + half.y}));
        REQUIRE(place);
        CHECK(std::abs(place->climb_rad) <= std::numbers::pi / 2 + 1e-9);
    }
}

TEST_CASE("a label keeps off what is taken, or is left out", "[report][property]") {
    const auto line = straight({10, 150}, {390, 150});
    const std::vector<Obstacle> mark{{.middle = {200, 150}, .radius_px = 8}};
    const auto place = place_on(line, 0.5, mark);
    REQUIRE(place);
    CHECK(clearance(*place, mark.front()) > 0);

    std::vector<Obstacle> everywhere;
    for (double x = 0; x <= 400; x += 40)
        everywhere.push_back({.middle = {x, 150}, .radius_px = 8});
    CHECK_FALSE(place_on(line, 0.5, everywhere));
}

TEST_CASE("a label goes beside a line that crosses its own", "[report][property]") {
    const auto line = straight({10, 150}, {390, 150});
    const auto upright = obstacles_of(straight({200, 0}, {200, 300}), 1);
    const auto place = place_on(line, 0.5, {}, upright);
    REQUIRE(place);
    for (const Obstacle& point : upright)
        CHECK(clearance(*place, point) > 0);
}

TEST_CASE("where lines are everywhere a label crosses one, but not a bundle of them",
          "[report][property]") {
    const auto line = straight({10, 150}, {390, 150});
    const auto fence = [](double apart_px) {
        std::vector<Obstacle> points;
        for (double x = 0; x <= 400; x += apart_px)
            for (const Obstacle& point : obstacles_of({{x, 0}, {x, 300}}, 1))
                points.push_back(point);
        return points;
    };
    CHECK(place_on(line, 0.5, {}, fence(width_px - 5)));
    CHECK_FALSE(place_on(line, 0.5, {}, fence(width_px / 6)));
    // Nor is it written over a line that runs along with its own.
    CHECK_FALSE(place_on(line, 0.5, {}, obstacles_of(straight({10, 152}, {390, 152}), 1)));
}

TEST_CASE("a label stays in the frame and off a line too short for it", "[report][property]") {
    CHECK_FALSE(place_on(straight({10, 150}, {10 + width_px, 150})));
    CHECK_FALSE(place_on(straight({10, 2}, {390, 2})));  // Half of it would stick out on top.
    const auto place = place_on(straight({-100, 150}, {390, 150}), 0);
    REQUIRE(place);
    CHECK(place->middle.x - width_px / 2 >= wide.left);
}

TEST_CASE("a label does not stand on a bend", "[report][property]") {
    const std::vector<Point2> bent{{50, 50}, {200, 250}, {350, 50}};
    const auto place = place_on(bent);
    REQUIRE(place);
    CHECK(std::abs(place->middle.x - 200) > width_px / 4);
}

TEST_CASE("a line with a gap for its label lacks just the gap", "[report][property]") {
    const std::vector<Point2> line{{0, 0}, {100, 0}, {100, 100}, {300, 100}};
    CHECK_THAT(length(without_stretch(line, 150, 230)), WithinAbs(400 - 80, 1e-9));
    CHECK(without_stretch(line, 150, 230).size() == 2);
    CHECK(without_stretch(line, -10, 50).size() == 1);
    CHECK_THAT(length(without_stretch(line, 350, 500)), WithinAbs(350, 1e-9));
    CHECK(without_stretch(line, -1, 401).empty());
}

TEST_CASE("what a label takes covers its corners' height and its whole width",
          "[report][property]") {
    const LabelPlace place{.middle = {100, 100}, .climb_rad = 0.4};
    const auto spots = taken_by(place, width_px, height_px);
    double least = 0, greatest = 0;
    for (const Obstacle& spot : spots) {
        CHECK_THAT(spot.radius_px, WithinAbs(height_px / 2, 1e-9));
        const double along =
            (spot.middle.x - 100) * std::cos(0.4) - (spot.middle.y - 100) * std::sin(0.4);
        least = std::min(least, along - spot.radius_px);
        greatest = std::max(greatest, along + spot.radius_px);
    }
    CHECK_THAT(least, WithinAbs(-width_px / 2, 1e-9));
    CHECK_THAT(greatest, WithinAbs(width_px / 2, 1e-9));
}
