#include "optics/contrast/lens_figures.h"

#include "focused.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace backrow::optics;
using Catch::Matchers::WithinRel;

// [DIFFRACTION]: a perfect lens leaves half of the contrast at .403973 of its cutoff.
TEST_CASE("a perfect lens is as sharp as diffraction lets it, everywhere", "[optics][published]") {
    const auto figures = lens_figures(fifty(1.4), 3, 11);
    REQUIRE(figures);
    CHECK(figures->f_numbers == std::vector<double>{1.4, 2, 2.8, 4, 5.6, 8, 11});
    for (std::size_t i = 0; i < figures->f_numbers.size(); ++i) {
        const double sees_f_number = figures->f_numbers[i] * 3 / (3 - 0.05);
        for (const double height : {0.0, 0.5, 1.0}) {
            const PlaceFigures& place = figures->at(i, height);
            const double expected = 0.403973 / (550e-6 * sees_f_number);
            CHECK_THAT(place.mtf50_tangential_cy_per_mm, WithinRel(expected, 2e-3));
            CHECK_THAT(place.mtf50_sagittal_cy_per_mm, WithinRel(expected, 2e-3));
            CHECK(place.blur_mm < 1e-12);
            CHECK(place.stops_lost == 0);
        }
    }
    CHECK(good_from(*figures, 1, 0.01) == 1.4);
    CHECK(std::abs(figures->field.back().tangential_m) < 1e-12);
}

TEST_CASE("corners that focus nearer are told in metres, and are good once stopped down",
          "[optics][property]") {
    const LensProfile profile{
        .widest_f_number = 1.4, .spherical_dpt = 0.02, .field_curvature_dpt = 0.03};
    const auto figures = lens_figures(fifty(1.4, profile), 3, 16);
    REQUIRE(figures);
    CHECK_THAT(figures->field.back().tangential_m, WithinRel(1 / (1 / 3.0 + 0.03) - 3, 1e-9));
    CHECK(figures->field.back().sagittal_m == figures->field.back().tangential_m);
    // Whatever the opening, the middle is in focus: what is left there goes with 1/N³ [SMITH].
    CHECK_THAT(figures->at(0, 0).blur_mm / figures->at(1, 0).blur_mm,
               WithinRel(std::pow(2 / 1.4, 3), 1e-3));
    const auto middle = good_from(*figures, 0, 0.012);
    const auto corner = good_from(*figures, 1, 0.012);
    REQUIRE(middle);
    REQUIRE(corner);
    CHECK(*middle < *corner);
    CHECK_FALSE(good_from(*figures, 1, 1e-4));
}

TEST_CASE("no figures where the lens forms no image", "[optics][property]") {
    CHECK_FALSE(lens_figures(fifty(1.4), 0.04, 16));
}
