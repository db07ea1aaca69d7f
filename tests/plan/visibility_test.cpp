#include "plan/faces/visibility.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace backrow;
using namespace backrow::plan;
using Catch::Matchers::WithinAbs;

namespace {

const glm::dvec3 lens_m{0, 1.6, 10};

/// A face at the lens' height, ten metres away, looking at it.
FaceShape face_at(const glm::dvec3& middle_m) {
    return {.middle_m = middle_m,
            .half_across_m = {-0.075, 0, 0},
            .half_up_m = {0, 0.11, 0},
            .half_deep_m = {0, 0, 0.1}};
}

const FaceShape face = face_at({0, 1.6, 0});

Body ball(const glm::dvec3& middle_m, double radius_m) {
    return body_from_solids({{middle_m, middle_m, radius_m}});
}

/// A pole so thick that only its edge counts, with its axis along the picture's width (level) or
/// height; its edge touches the line from the face to the lens, half way.
Body level_pole_below() {
    return body_from_solids({{{-5, 0.6, 5}, {5, 0.6, 5}, 1.0}});
}
Body pole_beside(double side) {
    return body_from_solids({{{side, -5, 5}, {side, 8, 5}, 1.0}});
}

double seen(const FaceShape& of, const std::vector<Body>& others) {
    std::vector<Body> bodies{ball(of.middle_m, 0.12)};
    bodies.insert(bodies.end(), others.begin(), others.end());
    return visibility(of, lens_m, bodies, 0).fraction;
}

/// Points lie √(π/128) of the half width apart. An edge through the middle can take or leave those
/// within half of that: 0.078 · 2/π of the area.
constexpr double sampling = 0.05;

}  // namespace

TEST_CASE("somebody alone is seen whole", "[plan][property]") {
    CHECK(seen(face, {}) == 1.0);
}

TEST_CASE("a head right before a face hides it", "[plan][property]") {
    CHECK(seen(face, {ball({0, 1.6, 0.5}, 0.15)}) == 0.0);
}

TEST_CASE("whoever is behind, beside, or behind the camera hides nothing", "[plan][property]") {
    CHECK(seen(face, {ball({0, 1.6, -0.5}, 0.2)}) == 1.0);
    CHECK(seen(face, {ball({0.4, 1.6, 0.1}, 0.2)}) == 1.0);
    CHECK(seen(face, {ball({0, 1.6, 11}, 0.5)}) == 1.0);
    CHECK(seen(face, {ball({0, 1.0, 1}, 0.3)}) == 1.0);
}

// Below the hair line (0.6 of the half height) lies 1 − (acos 0.6 − 0.6·0.8)/π = 0.8576 of an
// ellipse, and below its middle a half, so 0.583 of the face is hidden.
TEST_CASE("an edge at eye height hides the lower half of the egg", "[plan][property]") {
    const double below_hair_line = 1 - (std::acos(0.6) - 0.48) / std::numbers::pi;
    CHECK_THAT(seen(face, {level_pole_below()}), WithinAbs(1 - 0.5 / below_hair_line, sampling));
}

TEST_CASE("an edge down the nose hides one cheek, on either side", "[plan][property]") {
    CHECK_THAT(seen(face, {pole_beside(1)}), WithinAbs(0.5, sampling));
    CHECK_THAT(seen(face, {pole_beside(-1)}), WithinAbs(0.5, sampling));
    CHECK(seen(face, {pole_beside(1), pole_beside(-1)}) == 0.0);
}

// A ball of a fifth of the face's size half way to the lens covers twice its size on the face:
// π(0.03·2)² of π·0.075·0.11·0.8576. Tolerance: the rim of that disc, 2π·0.06 m, holds points
// 0.157·√(0.075·0.11) m = 0.014 m apart that may fall either way by a quarter of that distance.
TEST_CASE("a small thing half way hides twice its size", "[plan][property]") {
    const double face_m2 = std::numbers::pi * 0.075 * 0.11 * 0.8576;
    const double hidden = std::numbers::pi * 0.06 * 0.06 / face_m2;
    const double rim = 2 * std::numbers::pi * 0.06 * 0.014 / 4 / face_m2;
    CHECK_THAT(seen(face, {ball({0, 1.6 - 0.01, 5}, 0.03)}), WithinAbs(1 - hidden, rim));
}

TEST_CASE("a face in profile is still whole, a face turned away is none", "[plan][property]") {
    FaceShape profile = face;
    profile.half_across_m = {0, 0, 0.075};
    profile.half_deep_m = {0.1, 0, 0};
    CHECK(seen(profile, {}) == 1.0);

    FaceShape away = face;
    away.half_across_m = {0.075, 0, 0};
    away.half_deep_m = {0, 0, -0.1};
    CHECK(seen(away, {}) == 0.0);
}

TEST_CASE("more people never show more of a face", "[plan][property]") {
    std::vector<Body> others;
    double before = 1;
    for (int i = 0; i < 40; ++i) {
        const double turn = 2.4 * i;
        others.push_back(
            ball({0.08 * std::cos(turn), 1.6 + 0.1 * std::sin(turn), 1 + 0.1 * i}, 0.012));
        const double now = seen(face, others);
        CHECK(now <= before);
        before = now;
    }
    CHECK(before < 1);
}

// A leaning capsule between face and lens: the sight lines pass its middle, not its ends.
TEST_CASE("an arm across a face hides it in the middle of its length", "[plan][property]") {
    const Body arm = body_from_solids({{{-2, 0.6, 4}, {2, 2.6, 6}, 0.3}});
    CHECK(seen(face, {arm}) == 0.0);
    const Body stump = body_from_solids({{{-2, 0.6, 4}, {-1, 1.1, 4.5}, 0.3}});
    CHECK(seen(face, {stump}) == 1.0);
}

TEST_CASE("the face's shape follows the head's points", "[plan][property]") {
    figures::ReferencePoints points;
    points.left_ear_m = {0.07, 1.6, 0};
    points.right_ear_m = {-0.07, 1.6, 0};
    points.nose_tip_m = {0, 1.6, 0.12};
    points.chin_m = {0, 1.5, 0.09};
    points.crown_m = {0, 1.74, 0.01};
    const FaceShape shape = face_shape(points);
    const auto check = [](const glm::dvec3& is, const glm::dvec3& should) {
        // Rounding of sums of metres.
        CHECK_THAT(is.x, WithinAbs(should.x, 1e-12));
        CHECK_THAT(is.y, WithinAbs(should.y, 1e-12));
        CHECK_THAT(is.z, WithinAbs(should.z, 1e-12));
    };
    check(shape.middle_m, {0, 1.62, 0});
    check(shape.half_across_m, {-0.07, 0, 0});
    check(shape.half_up_m, {0, 0.12, 0});
    check(shape.half_deep_m, {0, 0, 0.12});
}

TEST_CASE("the ball round a body holds all its solids", "[plan][property]") {
    const Body body = body_from_solids({{{0, 0, 0}, {0, 1.4, 0}, 0.15},
                                        {{-0.6, 1.2, 0.3}, {-0.2, 1.3, 0}, 0.05},
                                        {{0, 1.6, 0}, {0, 1.65, 0}, 0.11}});
    for (const figures::Capsule& solid : body.solids)
        for (const glm::dvec3& end : {solid.from_m, solid.to_m})
            CHECK(std::hypot(end.x - body.middle_m.x, end.y - body.middle_m.y,
                             end.z - body.middle_m.z) +
                      solid.radius_m <=
                  body.reach_m + 1e-12);
}
