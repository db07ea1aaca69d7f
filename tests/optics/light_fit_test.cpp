#include "optics/fitting/light_fit.h"

#include "optics/lens/light_loss.h"

#include "../base/lot.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <cstdint>
#include <vector>

using namespace backrow;
using namespace backrow::optics;
using Catch::Matchers::WithinAbs;

namespace {

constexpr LensProfile fast{.widest_f_number = 1.4, .vignetting = 1.2, .natural_falloff = 0.6};

/// Nearly Gauss's: the sum of twelve even ones.
double chance(Lot& lot) {
    double sum = -6;
    for (int i = 0; i < 12; ++i)
        sum += lot.between(0, 1);
    return sum;
}

/// A chart that is lit evenly but for a hundredth in the corners and for chance, of each f-number
/// exposed as it may be.
std::vector<MeasuredLight> frames_of(const std::vector<double>& f_numbers, double to_height,
                                     double noise, std::uint64_t seed) {
    Lot lot{seed};
    const double lamps = 0.01 * chance(lot);
    std::vector<MeasuredLight> all;
    for (const double f_number : f_numbers) {
        const double exposure = lot.between(0.2, 0.8);
        for (int i = 0; i < 60; ++i) {
            const double height = to_height * lot.between(0, 1);
            all.push_back({.f_number = f_number,
                           .image_height = height,
                           .light = exposure * light_share(*lens_of({}, fast, f_number), height) *
                                    (1 + lamps * height * height) * (1 + noise * chance(lot))});
        }
    }
    return all;
}

}  // namespace

// Of 60 fits the squares of errors over those that are told have mean 1, within three of its
// standard errors, √(2/60); less where the least that is told, half a hundredth, counts.
TEST_CASE("what a lens loses of the light is found again, within the errors that are told",
          "[optics][property]") {
    double vignetting = 0, falloff = 0;
    constexpr int fits = 60;
    for (int i = 0; i < fits; ++i) {
        const auto fit =
            fit_light({}, frames_of({1.4, 2.8, 5.6}, 0.95, 0.03, static_cast<std::uint64_t>(i)));
        REQUIRE(fit);
        CHECK(fit->vignetting_error < 0.05);
        CHECK(fit->natural_falloff_error < 0.2);
        CHECK_THAT(fit->typical_misfit, WithinAbs(0.03, 0.006));
        vignetting += std::pow((fit->vignetting - 1.2) / fit->vignetting_error, 2) / fits;
        falloff += std::pow((fit->natural_falloff - 0.6) / fit->natural_falloff_error, 2) / fits;
    }
    CHECK_THAT(vignetting, WithinAbs(1, 3 * std::sqrt(2.0 / fits)));
    CHECK_THAT(falloff, WithinAbs(1, 3 * std::sqrt(2.0 / fits)));
}

TEST_CASE("through small openings rims are not seen, and near the middle nothing is",
          "[optics][property]") {
    const auto stopped_down =
        fit_light({.widest_f_number = 1.4}, frames_of({8, 11}, 0.95, 0.01, 5));
    REQUIRE(stopped_down);
    CHECK(std::isinf(stopped_down->vignetting_error));
    CHECK(stopped_down->vignetting == 0);
    CHECK_THAT(stopped_down->natural_falloff,
               WithinAbs(0.6, 3 * stopped_down->natural_falloff_error));

    const auto middle = fit_light({}, frames_of({1.4, 2.8}, 0.03, 0.02, 6));
    REQUIRE(middle);
    CHECK(std::isinf(middle->vignetting_error));
    CHECK(std::isinf(middle->natural_falloff_error));
    CHECK(middle->natural_falloff == 0);
}

TEST_CASE("from too little light nothing is fitted", "[optics][property]") {
    CHECK_FALSE(fit_light({}, {}));
    CHECK_FALSE(
        fit_light({.focal_length_mm = 50, .distance_m = 0.03}, frames_of({2}, 0.9, 0.01, 1)));
}
