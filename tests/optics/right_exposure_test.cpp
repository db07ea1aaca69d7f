#include "optics/exposure/right_exposure.h"

#include "optics/exposure/stops.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace backrow::optics;

namespace {

constexpr ExposureSetting day{.shutter_s = 1.0 / 250, .iso = 100};

}  // namespace

// The sunny 16 rule, common practice, no source: in full sun, EV 15 within a third of a stop, f/16
// goes with a second over the ISO. EV 15 at ISO 100 is f/16 and 1/128 s.
TEST_CASE("in full sun f/16 goes with a second over the ISO", "[optics][practice]") {
    const ExposureSetting right = right_exposure(day, 16, 15, 1.0 / 50);
    CHECK(right == ExposureSetting{.shutter_s = 1.0 / 125, .iso = 100});
}

// Each setting is reckoned by hand from EV 12 = log2(N²/t): f/2, 1/1024 s.
TEST_CASE("the shutter gives way first, then ISO, then a grey filter", "[optics][property]") {
    CHECK(right_exposure(day, 2, 12, 1.0 / 50) == ExposureSetting{.shutter_s = 1e-3, .iso = 100});
    // EV 8, f/4: 1/16 s, three and a half stops longer than by hand; 1/60 takes two, ISO the rest.
    CHECK(right_exposure(day, 4, 8, 1.0 / 60) ==
          ExposureSetting{.shutter_s = 1.0 / 60, .iso = 400});
    // EV 16, f/1.4: 1/32768 s, two stops beyond 1/8000; ISO takes one and a filter the other.
    CHECK(right_exposure(day, 1.4, 16, 1.0 / 60) ==
          ExposureSetting{.shutter_s = 1.0 / 8000, .iso = 50, .filter_stops = 1});
}

TEST_CASE("what suits the light already stays, between the marks too", "[optics][property]") {
    const ExposureSetting odd{.shutter_s = 1.0 / 1000, .iso = 107, .filter_stops = 0.03};
    CHECK(right_exposure(odd, 2, 12, 1.0 / 50) == odd);
    const ExposureSetting filtered{.shutter_s = 1.0 / 125, .iso = 100, .filter_stops = 3};
    CHECK(right_exposure(filtered, 2, 12, 1.0 / 50) == filtered);
}

TEST_CASE("a filter comes off before anything gets noisy", "[optics][property]") {
    const ExposureSetting filtered{.shutter_s = 1.0 / 125, .iso = 100, .filter_stops = 3};
    CHECK(right_exposure(filtered, 4, 12, 1.0 / 125) ==
          ExposureSetting{.shutter_s = 1.0 / 250, .iso = 100});
}

// Where the night is too dark for the highest ISO the shutter stays open beyond the limit.
TEST_CASE("from starlight to snow every setting is within a fifth of a stop of the light",
          "[optics][property]") {
    for (double ev = -8; ev < 18; ev += 0.173)
        for (const double f_number : marked_f_numbers())
            for (const double iso : {50.0, 100.0, 110.0, 1600.0}) {
                const ExposureSetting right =
                    right_exposure({.shutter_s = 1.0 / 180, .iso = iso, .filter_stops = 1},
                                   f_number, ev, 1.0 / 85);
                CAPTURE(ev, f_number, iso, right.shutter_s, right.iso, right.filter_stops);
                CHECK(std::abs(stops_over(right, f_number, ev)) <= 0.2);
                const ExposureSetting fastest{.shutter_s = 1.0 / 100, .iso = marked_isos().back()};
                CHECK((right.shutter_s <= 1.0 / 85 || stops_over(fastest, f_number, ev) < -0.16));
                CHECK((right.filter_stops <= 1 || right.shutter_s <= 1.0 / 4000));
            }
}
