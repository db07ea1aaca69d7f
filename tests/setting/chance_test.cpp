#include "setting/chance.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <cstdint>

using namespace backrow::setting;
using Catch::Matchers::WithinAbs;

TEST_CASE("the same key falls the same way, another key another way", "[setting][property]") {
    Chance one{3, -7, 12};
    Chance same{3, -7, 12};
    Chance other{3, 12, -7};
    int alike = 0;
    for (int i = 0; i < 100; ++i) {
        const float x = one.unit();
        CHECK(x == same.unit());
        alike += x == other.unit() ? 1 : 0;
    }
    CHECK(alike == 0);
}

// Tolerance: five standard errors; the run is fixed, so this passes always or never. Variances:
// 1/12 for even numbers; the bell's is 1 with fourth moment 3 − 1.2/4 = 2.7, so that of its square
// is 1.7.
TEST_CASE("chance has the mean and the spread that it says", "[setting][property]") {
    constexpr int count = 40000;
    Chance chance{5};
    double sum = 0;
    for (int i = 0; i < count; ++i) {
        const double x = static_cast<double>(chance.unit());
        CHECK((x >= 0 && x < 1));
        sum += x;
    }
    CHECK_THAT(sum / count, WithinAbs(0.5, 5 * std::sqrt(1.0 / 12 / count)));

    double bell = 0;
    double squares = 0;
    for (int i = 0; i < count; ++i) {
        const double x = static_cast<double>(chance.bell());
        bell += x;
        squares += x * x;
    }
    CHECK_THAT(bell / count, WithinAbs(0, 5 * std::sqrt(1.0 / count)));
    CHECK_THAT(squares / count, WithinAbs(1, 5 * std::sqrt(1.7 / count)));
}

// Each axis of an even spread over the sphere has mean 0 and variance 1/3.
TEST_CASE("directions favour no side", "[setting][property]") {
    constexpr int count = 40000;
    Chance chance{6};
    glm::dvec3 sum{0};
    for (int i = 0; i < count; ++i) {
        const glm::vec3 out = chance.direction();
        CHECK_THAT(static_cast<double>(glm::length(out)), WithinAbs(1, 1e-6));
        sum += glm::dvec3{out};
    }
    for (int axis = 0; axis < 3; ++axis) {
        CHECK_THAT(sum[axis] / count, WithinAbs(0, 5 * std::sqrt(1.0 / 3 / count)));
    }
}

// Between neighbouring lattice points an eased step is at most 3/2 steep; in two directions the
// change over a hundredth is at most 0.015 each.
TEST_CASE("noise is smooth, also across whole numbers and below zero", "[setting][property]") {
    for (int i = -300; i < 300; ++i) {
        const float x = static_cast<float>(i) * 0.01F;
        const float here = noise(glm::vec2{x, -x}, 9);
        const float beside = noise(glm::vec2{x + 0.01F, -x}, 9);
        CHECK((here >= 0 && here <= 1));
        CHECK(std::abs(here - beside) <= 0.0151F);
    }
}
