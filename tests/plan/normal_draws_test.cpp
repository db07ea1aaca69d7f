#include "plan/odds/normal_draws.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace backrow::plan;
using Catch::Matchers::WithinAbs;

// The standard library, which is exact to a digit. Tolerance: what the series leave out, 1e-15, and
// rounding of sums up to 22.
TEST_CASE("logarithms and angles agree with the standard library's", "[plan][property]") {
    for (std::uint64_t n = 1; n <= std::uint64_t{1} << 32; n += 1 + n / 3)
        CHECK_THAT(log_of_share(n), WithinAbs(std::log(std::ldexp(double(n), -32)), 1e-14));
    CHECK(log_of_share(std::uint64_t{1} << 32) == 0);
    CHECK(log_of_share((std::uint64_t{1} << 32) - 1) < 0);
    for (std::uint64_t n = 0; n < std::uint64_t{1} << 32; n += 12'345'677) {
        const auto part = static_cast<std::uint32_t>(n);
        const auto [cosine, sine] = cosine_and_sine(part);
        const double angle = 2 * std::numbers::pi * std::ldexp(double(part), -32);
        CHECK_THAT(cosine, WithinAbs(std::cos(angle), 2e-15));
        CHECK_THAT(sine, WithinAbs(std::sin(angle), 2e-15));
    }
}

// Fixed seed. With n draws the standard errors of mean, variance, fourth moment, and correlation
// are 1/√n, √2/√n, √96/√n, 1/√n; 4.5 of them let one run in 100 000 fail.
TEST_CASE("draws are Gaussian and pairs independent", "[plan][property]") {
    constexpr int pairs = 500'000;
    constexpr double n = 2.0 * pairs;
    double sum = 0, squares = 0, fourths = 0, products = 0, lagged = 0, beyond_two = 0;
    double before = 0;
    for (int i = 0; i < pairs; ++i) {
        const auto [a, b] = two_normals(7, static_cast<std::uint64_t>(i));
        sum += a + b;
        squares += a * a + b * b;
        fourths += a * a * a * a + b * b * b * b;
        products += a * b;
        lagged += a * before;
        before = a;
        beyond_two += (std::abs(a) > 2) + (std::abs(b) > 2);
    }
    constexpr double sigmas = 4.5;
    CHECK_THAT(sum / n, WithinAbs(0, sigmas / std::sqrt(n)));
    CHECK_THAT(squares / n, WithinAbs(1, sigmas * std::sqrt(2 / n)));
    CHECK_THAT(fourths / n, WithinAbs(3, sigmas * std::sqrt(96 / n)));
    CHECK_THAT(products / pairs, WithinAbs(0, sigmas / std::sqrt(pairs)));
    CHECK_THAT(lagged / pairs, WithinAbs(0, sigmas / std::sqrt(pairs)));
    const double tail = std::erfc(2 / std::numbers::sqrt2);
    CHECK_THAT(beyond_two / n, WithinAbs(tail, sigmas * std::sqrt(tail * (1 - tail) / n)));
}

TEST_CASE("another seed gives other draws, the same seed the same", "[plan][property]") {
    CHECK(two_normals(1, 5).first == two_normals(1, 5).first);
    CHECK(two_normals(1, 5).first != two_normals(2, 5).first);
    CHECK(two_normals(1, 5).first != two_normals(1, 6).first);
}
