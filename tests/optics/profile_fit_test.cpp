#include "optics/fitting/profile_fit.h"

#include "base/splitmix64.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <vector>

using namespace backrow;
using namespace backrow::optics;

namespace {

/// What test frames of this lens would show: five openings, from the middle to the corner, lines
/// both ways, at three frequencies, each wrong by about a hundredth.
std::vector<MeasuredContrast> frames_of(const TestShots& shots, LensProfile lens, double focus_dpt,
                                        const std::vector<double>& f_numbers,
                                        const std::vector<double>& heights, std::uint64_t seed) {
    lens.focus_offset_dpt = focus_dpt;
    std::vector<MeasuredContrast> all;
    for (const double f_number : f_numbers)
        for (const double height : heights)
            for (const double share : {1.0, 0.3, 0.0})
                for (const double cy_per_mm : {12.0, 25.0, 45.0}) {
                    MeasuredContrast one{.f_number = f_number,
                                         .image_height = height,
                                         .tangential_share = share,
                                         .cy_per_mm = cy_per_mm};
                    double noise = -6;  // nearly Gauss's: the sum of twelve even ones
                    for (int i = 0; i < 12; ++i)
                        noise += std::ldexp(
                            static_cast<double>(splitmix64(seed += counter_step) >> 11), -53);
                    one.mtf = std::clamp(modelled_mtf(shots, lens, one) + 0.01 * noise, 0.0, 1.0);
                    all.push_back(one);
                }
    return all;
}

const std::vector<double> five_stops{1.4, 2, 2.8, 4, 5.6};
const std::vector<double> to_the_corner{0, 0.3, 0.6, 0.95};

}  // namespace

TEST_CASE("a lens is found again from frames of a chart, within the errors that are told",
          "[optics][property]") {
    const LensProfile lens{.widest_f_number = 1.4,
                           .spherical_dpt = 0.05,
                           .field_curvature_dpt = -0.05,
                           .astigmatism_dpt = 0.06,
                           .coma_dpt = 0.02};
    for (const Light light : {Light::waves, Light::rays}) {
        const TestShots shots{.light = light};
        const auto frames = frames_of(shots, lens, -0.03, five_stops, to_the_corner, 7);
        const auto fit = fit_profile(shots, frames);
        REQUIRE(fit);
        const std::vector<double> truth{0.05, -0.05, 0.06, 0.02, -0.03};
        for (std::size_t i = 0; i < truth.size(); ++i) {
            const FittedTerm& term = fit->terms[i];
            INFO(term.key << " " << term.dpt << " ± " << term.error_dpt);
            REQUIRE(term.is_told());
            CHECK(std::abs(term.dpt - truth[i]) < 4 * term.error_dpt);
            CHECK(term.error_dpt < 0.15 * std::abs(truth[i]));
        }
        CHECK(fit->typical_misfit < 0.013);
        CHECK(fit->profile.widest_f_number == 1.4);
        CHECK(fit->profile.focus_offset_dpt == 0);
    }
}

TEST_CASE("the middle of the picture tells nothing of its corners", "[optics][property]") {
    const LensProfile lens{
        .widest_f_number = 1.4, .spherical_dpt = 0.05, .field_curvature_dpt = 0.05};
    const TestShots shots;
    const auto fit =
        fit_profile(shots, frames_of(shots, lens, -0.03, five_stops, {0, 0.05, 0.1}, 11));
    REQUIRE(fit);
    CHECK(fit->terms[0].is_told());
    CHECK_FALSE(fit->terms[1].is_told());
    CHECK_FALSE(fit->terms[2].is_told());
    CHECK(fit->profile.field_curvature_dpt == 0);
    CHECK(std::abs(fit->profile.spherical_dpt - 0.05) < 4 * fit->terms[0].error_dpt);
}

TEST_CASE("a lens that errs the other way leaves the same contrast, and is told the usual way",
          "[optics][property]") {
    const LensProfile lens{
        .widest_f_number = 1.4, .spherical_dpt = -0.05, .field_curvature_dpt = 0.04};
    const TestShots shots;
    const auto fit = fit_profile(shots, frames_of(shots, lens, 0.03, five_stops, to_the_corner, 3));
    REQUIRE(fit);
    CHECK(fit->profile.spherical_dpt > 0);
    CHECK(fit->profile.field_curvature_dpt < 0);
}

TEST_CASE("from too little nothing is fitted", "[optics][property]") {
    CHECK_FALSE(fit_profile({}, {}));
    CHECK_FALSE(fit_profile({.focal_length_mm = 50, .distance_m = 0.03},
                            std::vector<MeasuredContrast>(20)));
}
