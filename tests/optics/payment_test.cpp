#include "optics/payment.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace backrow::optics;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

constexpr ShutterAndIso day{.shutter_s = 1.0 / 250, .iso = 100};

double stops_from(const ShutterAndIso& set, const ShutterAndIso& paid) {
    return std::log2(paid.shutter_s * paid.iso / (set.shutter_s * set.iso));
}

}  // namespace

TEST_CASE("every way of paying buys the same light", "[optics][property]") {
    for (const double stops : {-2.0, -0.5, 0.0, 1.0 / 3, 1.4739, 4.0, 9.0})
        for (const Payment& payment : {pay_by_shutter(day, stops), pay_by_iso(day, stops),
                                       pay_by_both(day, stops, 1.0 / 60)}) {
            CHECK_THAT(stops_from(day, payment.exact), WithinAbs(stops, 1e-12));
            // The widest gaps between marks are those from 1/15 to 1/20 s and from 1/6 to 1/8 s,
            // 0.415 of a stop; half of that is as far as a rounding can go.
            CHECK_THAT(stops_from(day, payment.marked), WithinAbs(stops, 0.415 / 2 + 0.001));
        }
}

// 0.004·2^(7/3) = 0.0201587 s, 100·2^(7/3) = 503.968. Tolerance: half of the last digit.
TEST_CASE("two and a third stops are 1/50 s or ISO 500", "[optics][property]") {
    CHECK(payment_words(day, 7.0 / 3) == "2⅓ stops: 1/250 → 1/50 s or ISO 100 → 500");
    CHECK(payment_words({.shutter_s = 0.25, .iso = 400}, 1) ==
          "1 stop: 1/4 → 0.5 s or ISO 400 → 800");
    CHECK_THAT(pay_by_shutter(day, 7.0 / 3).exact.shutter_s, WithinAbs(0.0201587, 5e-8));
    CHECK_THAT(pay_by_iso(day, 7.0 / 3).exact.iso, WithinAbs(503.968, 5e-4));
}

// Four stops from 1/250 s and ISO 100, held by hand to 1/60 s: the shutter gives 250/60, 2.06
// stops, ISO the rest, 16·60/250 = 3.84.
TEST_CASE("the shutter pays up to its limit, ISO the rest", "[optics][property]") {
    const Payment payment = pay_by_both(day, 4, 1.0 / 60);
    CHECK_THAT(payment.exact.shutter_s, WithinRel(1.0 / 60, 1e-12));
    CHECK_THAT(payment.exact.iso, WithinRel(384, 1e-12));
    CHECK(payment.marked.shutter_s == 1.0 / 60);
    CHECK(payment.marked.iso == 400);
}

TEST_CASE("while the shutter can pay alone ISO stays", "[optics][property]") {
    const Payment payment = pay_by_both(day, 1, 1.0 / 60);
    CHECK_THAT(payment.exact.shutter_s, WithinRel(1.0 / 125, 1e-12));
    CHECK(payment.marked.shutter_s == 1.0 / 125);
    CHECK(payment.marked.iso == 100);
}

TEST_CASE("a shutter that is too long already grows no longer", "[optics][property]") {
    const Payment payment = pay_by_both({.shutter_s = 1.0 / 15, .iso = 400}, 2, 1.0 / 60);
    CHECK(payment.exact.shutter_s == 1.0 / 15);
    CHECK(payment.marked.shutter_s == 1.0 / 15);
    CHECK(payment.marked.iso == 1600);
}

// 1/85 s lies between 1/80, which is longer, and 1/100; ISO makes up for what that shutter lacks:
// 100·2^1.7·(100/250) = 129.96, nearest 125.
TEST_CASE("rounded to marks the shutter stays within its limit", "[optics][property]") {
    const Payment payment = pay_by_both(day, 1.7, 1.0 / 85);
    CHECK(payment.marked.shutter_s == 1.0 / 100);
    CHECK(payment.marked.iso == 125);
}

TEST_CASE("a wider opening is paid back with a faster shutter", "[optics][property]") {
    const Payment payment = pay_by_both(day, -2, 1.0 / 60);
    CHECK_THAT(payment.exact.shutter_s, WithinRel(1.0 / 1000, 1e-12));
    CHECK(payment.exact.iso == Approx(100).epsilon(1e-12));
}
