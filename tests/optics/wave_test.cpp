#include "optics/contrast/wave.h"

#include "optics/lens/quadrature.h"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>
#include <complex>
#include <numbers>
#include <utility>

using namespace backrow::optics;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

// ∫₀¹ xⁿ dx = 1/(n + 1). Tolerance: rounding.
TEST_CASE("Gauss and Legendre's points are exact for polynomials of twice their number less one",
          "[optics][property]") {
    for (const int count : {1, 2, 4, 8, 12}) {
        const auto points = gauss_legendre(count);
        REQUIRE(points.size() == static_cast<std::size_t>(count));
        for (int power = 0; power < 2 * count; ++power) {
            double sum = 0;
            for (const auto& [at, weight] : points)
                sum += weight * std::pow(at, power);
            CHECK_THAT(sum, WithinRel(1.0 / (power + 1), 1e-13));
        }
    }
}

// Against steps of a thousandth of a wave. Tolerance: the third derivative times the square of the
// step, a millionth, times (2π)³.
TEST_CASE("contrast grows with each term of the wave as steps along it say", "[optics][property]") {
    const auto lens = focused_lens(
        {.f_number = 2, .focus_m = 3, .profile = {.widest_f_number = 1.4, .vignetting = 1.1}});
    REQUIRE(lens);
    const Wave wave{.radial = 0.3, .around = -0.2, .fourth = 0.4, .coma = 0.25};
    constexpr std::array terms{&Wave::radial, &Wave::around, &Wave::fourth, &Wave::coma};
    for (const Light light : {Light::waves, Light::rays})
        for (const Lines lines : {Lines::tangential, Lines::sagittal}) {
            const Meetings all = meetings(*lens, 0.8, lines, 60, light);
            const Contrast here = contrast(all, wave);
            for (const auto term : terms) {
                constexpr double step = 1e-3;
                Wave less = wave, more = wave;
                less.*term -= step;
                more.*term += step;
                CHECK_THAT(
                    here.slopes.*term,
                    WithinAbs((contrast(all, more).left - contrast(all, less).left) / (2 * step),
                              2.5e-4));
            }
        }
}

// Against points of a fine grid over what both openings have in common. Tolerance: that of the
// header; the grid's own is a thousandth.
TEST_CASE("contrast of lines aslant is that of all light that meets", "[optics][property]") {
    const auto lens = focused_lens(
        {.f_number = 2, .focus_m = 3, .profile = {.widest_f_number = 1.4, .vignetting = 1.1}});
    REQUIRE(lens);
    const Wave wave{.radial = 0.3, .around = -0.2, .fourth = 0.4, .coma = 0.25};
    const auto at = [&](double x, double y) {
        const double p2 = x * x + y * y;
        return wave.radial * x * x + wave.around * y * y + wave.fourth * p2 * p2 +
               wave.coma * p2 * x;
    };
    constexpr double height = 0.8, cy_per_mm = 80;
    const double half =
        wavelength_mm * image_distance_mm(*lens) * cy_per_mm / aperture_diameter_mm(*lens);
    const double rim_radius = 2 / 1.4, rim_off = 1.1 / 2 * height * rim_radius;
    const auto is_open = [&](double x, double y) {
        return x * x + y * y < 1 && std::hypot(x - rim_off, y) < rim_radius &&
               std::hypot(x + rim_off, y) < rim_radius;
    };
    for (const double share : {0.0, 0.2, 0.5, 1.0}) {
        const double dx = half * std::sqrt(share), dy = half * std::sqrt(1 - share);
        std::complex<double> sum = 0;
        double open = 0;
        constexpr int steps = 1000;
        for (int i = 0; i < steps; ++i)
            for (int k = 0; k < steps; ++k) {
                const double x = 2 * (i + 0.5) / steps - 1, y = 2 * (k + 0.5) / steps - 1;
                open += is_open(x, y);
                if (is_open(x + dx, y + dy) && is_open(x - dx, y - dy))
                    sum += std::polar(1.0, 2 * std::numbers::pi *
                                               (at(x + dx, y + dy) - at(x - dx, y - dy)));
            }
        CAPTURE(share);
        CHECK_THAT(
            contrast(slanted_meetings(*lens, height, share, cy_per_mm, Light::waves), wave).left,
            WithinAbs(std::abs(sum) / open, 0.003));
    }
    for (const Light light : {Light::waves, Light::rays})
        for (const auto& [lines, share] :
             {std::pair{Lines::tangential, 1.0}, {Lines::sagittal, 0.0}})
            CHECK_THAT(
                contrast(slanted_meetings(*lens, height, share, cy_per_mm, light), wave).left,
                WithinAbs(contrast(meetings(*lens, height, lines, cy_per_mm, light), wave).left,
                          0.003));
}

TEST_CASE("beyond the cutoff no light meets", "[optics][property]") {
    const auto lens = focused_lens({.f_number = 8, .focus_m = 3});
    REQUIRE(lens);
    CHECK(meetings(*lens, 0, Lines::tangential, 300, Light::waves).all.empty());
    CHECK(contrast({}, {}).left == 0);
}
