#include "optics/exposure/payment.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace backrow::optics;
using Catch::Matchers::WithinAbs;

namespace {

constexpr ShutterAndIso day{.shutter_s = 1.0 / 250, .iso = 100};

double stops_from(const ShutterAndIso& set, const ShutterAndIso& paid) {
    return std::log2(paid.shutter_s * paid.iso / (set.shutter_s * set.iso));
}

}  // namespace

TEST_CASE("every way of paying buys the same light", "[optics][property]") {
    for (const double stops : {-2.0, -0.5, 0.0, 1.0 / 3, 1.4739, 4.0, 9.0})
        for (const Payment& payment : {pay_by_shutter(day, stops), pay_by_iso(day, stops)}) {
            CHECK_THAT(stops_from(day, payment.exact), WithinAbs(stops, 1e-12));
            // The widest gaps between marks are those from 1/15 to 1/20 s and from 1/6 to 1/8 s,
            // 0.415 of a stop; half of that is as far as a rounding can go.
            CHECK_THAT(stops_from(day, payment.marked), WithinAbs(stops, 0.415 / 2 + 0.001));
        }
}

// 0.004·2^(7/3) = 0.0201587 s, 100·2^(7/3) = 503.968. Tolerance: half of the last digit.
TEST_CASE("two and a third stops are 1/50 s or ISO 500", "[optics][property]") {
    CHECK_THAT(pay_by_shutter(day, 7.0 / 3).exact.shutter_s, WithinAbs(0.0201587, 5e-8));
    CHECK_THAT(pay_by_iso(day, 7.0 / 3).exact.iso, WithinAbs(503.968, 5e-4));
    CHECK(pay_by_shutter(day, 7.0 / 3).marked.shutter_s == 1.0 / 50);
    CHECK(pay_by_iso(day, 7.0 / 3).marked.iso == 500);
}
