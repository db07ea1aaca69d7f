#include "optics/exposure/exposure.h"

#include "optics/exposure/stops.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>

using namespace backrow::optics;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

// EV = log₂(N²/t), an encyclopedic article citing [RAY2000] p. 318, worked out apart for numbers as
// marked. Tolerance: half of the last digit written down.
TEST_CASE("exposure values of marked settings", "[optics][published]") {
    CHECK_THAT(ev(1.4, 1.0 / 60), WithinAbs(6.8777, 0.00005));
    CHECK_THAT(ev(2, 1.0 / 125), WithinAbs(8.9658, 0.00005));
    CHECK_THAT(ev(2.8, 1.0 / 125), WithinAbs(9.9366, 0.00005));
    CHECK_THAT(ev(8, 1.0 / 250), WithinAbs(13.9658, 0.00005));
    CHECK_THAT(ev(16, 1.0 / 125), WithinAbs(14.9658, 0.00005));
    CHECK(ev(1, 1) == 0);
}

// Common practice, no source: in full sun f/16 and one over the ISO. That is log₂(256·100) = 14.644
// whatever the ISO, and a typical scene in full sun is EV 15 [ANSIPH27]: within half a stop.
// Tolerance: half of the last digit.
TEST_CASE("sunny sixteen suits the sun at any ISO", "[optics][practice]") {
    for (const double iso : {50.0, 100.0, 125.0, 400.0, 6400.0}) {
        const Exposure sunny{.f_number = 16, .shutter_s = 1 / iso, .iso = iso};
        CHECK_THAT(ev100(sunny), WithinAbs(14.644, 0.0005));
        CHECK(std::abs(stops_over(sunny, 15)) < 0.5);
    }
}

// By hand: f/1.2 stands for 2^¼, half a stop; log₂ 250 = 7.9658; 12 − 8.4658 = 3.5342.
// Tolerance: half of the last digit.
TEST_CASE("a fast lens wide open on a grey day is three and a half stops over",
          "[optics][property]") {
    const Exposure open{.f_number = 1.2, .shutter_s = 0.004, .iso = 100};
    CHECK_THAT(stops_over(open, 12), WithinAbs(3.5342, 0.00005));
    CHECK(stops_words(stops_over(open, 12)) == "3½ stops");
}

TEST_CASE("a stop is a stop, whichever ring gives it", "[optics][property]") {
    const Exposure set{.f_number = 4, .shutter_s = 1.0 / 60, .iso = 400};
    const double before = stops_over(set, 10);
    const auto gain = [&](const Exposure& changed) { return stops_over(changed, 10) - before; };
    CHECK_THAT(gain({2.8, set.shutter_s, set.iso}), WithinAbs(1, 1e-12));
    CHECK_THAT(gain({set.f_number, set.shutter_s * 2, set.iso}), WithinAbs(1, 1e-12));
    CHECK_THAT(gain({set.f_number, set.shutter_s, set.iso * 2}), WithinAbs(1, 1e-12));
    CHECK_THAT(stops_over(set, 11) - before, WithinAbs(1, 1e-12));
}

// Tolerance: rounding of a logarithm of the size of 15 and its power, 15·2⁻⁵²·ln 2.
TEST_CASE("two of aperture, shutter and ISO ask for the third", "[optics][property]") {
    for (const double scene_ev100 : {-2.0, 5.0, 12.0, 15.0}) {
        const double shutter_s = shutter_s_for(scene_ev100, 1.2, 200);
        CHECK_THAT(stops_over({1.2, shutter_s, 200}, scene_ev100), WithinAbs(0, 1e-12));
        const double iso = iso_for(scene_ev100, 5.6, 1.0 / 125);
        CHECK_THAT(stops_over({5.6, 1.0 / 125, iso}, scene_ev100), WithinAbs(0, 1e-12));
        const double f_number = f_number_for(scene_ev100, 1.0 / 125, 200);
        CHECK_THAT(ev(f_number, 1.0 / 125) - 1, WithinAbs(scene_ev100, 1e-12));
    }
}

// At life size, focused at 2f, m = 1: two stops. At ten focal lengths m = 1/9.
TEST_CASE("close up a lens lets through less light than its ring says", "[optics][property]") {
    const auto life_size = focused_lens({.focal_length_mm = 100, .f_number = 2.8, .focus_m = 0.2});
    REQUIRE(life_size);
    CHECK_THAT(effective_f_number(*life_size), WithinRel(5.6, 1e-12));
    const auto portrait = focused_lens({.focal_length_mm = 100, .f_number = 1.8, .focus_m = 1.0});
    REQUIRE(portrait);
    CHECK_THAT(effective_f_number(*portrait), WithinRel(2.0, 1e-12));
}

// Common practice, no source. 23.6 × 15.7 mm has a diagonal of 28.3452 mm, full frame 43.2666 mm:
// 50 mm there sees what 76.32 mm sees on full frame. Tolerance: half of the last digits.
TEST_CASE("by hand no longer than one over the focal length", "[optics][practice]") {
    CHECK(handheld_limit_s(50, std::hypot(36, 24)) == 1.0 / 50);
    CHECK_THAT(1 / handheld_limit_s(50, 28.3452), WithinAbs(76.32, 0.005));
}

// The three walkers of motion_test.cpp, turned round: the streak each draws allows the time it was
// drawn in. Tolerance: half a digit of 189.8, 43.42 and 296.9 µm.
TEST_CASE("a walker limits the shutter to what the blur allows", "[optics][property]") {
    CHECK_THAT(motion_limit_s(50.0 / 2950, 1.4, 0.1898), WithinRel(1.0 / 125, 0.05 / 189.8));
    CHECK_THAT(motion_limit_s(85.0 / 3915, 0.5, 0.04342), WithinRel(1.0 / 250, 0.005 / 43.42));
    CHECK_THAT(motion_limit_s(35.0 / 1965, 1.0, 0.2969), WithinRel(1.0 / 60, 0.05 / 296.9));
    CHECK(motion_limit_s(0.02, 0, 0.03) == std::numeric_limits<double>::infinity());
}
