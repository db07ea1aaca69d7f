#include "optics/blur/viewing.h"

#include "base/units.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>
#include <string>

using namespace backrow;
using namespace backrow::optics;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

/// A contact print of the sensor, looked at from here: nothing is enlarged.
PrintViewing contact_print(double distance_cm) {
    return {.long_side_cm = 3.6, .distance_cm = distance_cm};
}

}  // namespace

// 20/20 sight tells details of 1 arc minute, a fifth of its letter, from memory [ACUITY]: 0.07272
// mm at 250 mm, 0.14544 mm at 500 mm. Tolerance: half of the last printed digit.
TEST_CASE("20/20 sight reads seven hundredths of a millimetre at reading distance",
          "[optics][from-memory]") {
    CHECK_THAT(blur_mm_from_view_arcmin(1, 36, contact_print(25)), WithinAbs(0.07272, 0.000005));
    CHECK_THAT(blur_mm_from_view_arcmin(1, 36, contact_print(50)), WithinAbs(0.14544, 0.000005));
    CHECK_THAT(view_arcmin(0.07272, 36, contact_print(25)), WithinAbs(1, 0.0001));
}

// Five line pairs a millimetre at 25 cm, 0.2 mm a pair [RAY2000] p. 52, are 21.82 cycles a degree.
// Tolerance: half of the last printed digit, in cycles a degree.
TEST_CASE("the fine limit is the convention of 0.2 mm at 25 cm", "[optics][published]") {
    const double arcmin = view_arcmin(0.2, 36, contact_print(25));
    CHECK_THAT(60 / arcmin, WithinAbs(21.82, 0.005));
    // 2.75 is that angle to the two digits that the limit is given with.
    CHECK_THAT(arcmin, WithinAbs(fine_limit_arcmin, 0.005));
}

// [RAY2000] p. 52: enlarged seven times, 0.2 mm in the print at 25 cm is 0.029 mm on the sensor.
// Tolerance: half of the last printed digit.
TEST_CASE("a sevenfold enlargement allows 0.029 mm on the sensor", "[optics][published]") {
    const PrintViewing sevenfold{.long_side_cm = 36.0 * 7 / 10, .distance_cm = 25};
    CHECK_THAT(blur_mm_from_view_arcmin(fine_limit_arcmin, 36, sevenfold),
               WithinAbs(0.029, 0.0005));
}

// By similar triangles from 0.2 mm at 25 cm [RAY2000] p. 52: phone 14 cm at 30 cm: 0.24 mm · 36/140
// = 0.0617; album 30 at 40: 0.32 · 36/300 = 0.0384; wall 90 at 100: 0.8 · 36/900 = 0.0320.
// Tolerance: half a printed digit, and 2.75 for 2.7502 (0.007 %).
TEST_CASE("a phone forgives most, a wall least", "[optics][published]") {
    CHECK_THAT(blur_mm_from_view_arcmin(fine_limit_arcmin, 36, phone_viewing),
               WithinAbs(0.0617, 0.00006));
    CHECK_THAT(blur_mm_from_view_arcmin(fine_limit_arcmin, 36, album_viewing),
               WithinAbs(0.0384, 0.00006));
    CHECK_THAT(blur_mm_from_view_arcmin(fine_limit_arcmin, 36, wall_viewing),
               WithinAbs(0.0320, 0.00006));
}

TEST_CASE("the same blur seen from twice as far fills half the angle", "[optics][property]") {
    // For small angles; atan bends by (b/2D)²/3, below 1e-6 here.
    CHECK_THAT(view_arcmin(0.05, 36, {30, 80}),
               WithinRel(view_arcmin(0.05, 36, {30, 40}) / 2, 1e-6));
    CHECK(view_arcmin(0, 36, album_viewing) == 0);
}

TEST_CASE("angle and blur are each other's inverse", "[optics][property]") {
    for (const double arcmin : {0.01, 1.0, 2.75, 8.0, 600.0})
        CHECK_THAT(
            view_arcmin(blur_mm_from_view_arcmin(arcmin, 23.6, wall_viewing), 23.6, wall_viewing),
            WithinRel(arcmin, 1e-12));
}

TEST_CASE("a blur at the limit still earns the grade", "[optics][property]") {
    const auto above = [](double limit) {
        return std::nextafter(limit, std::numeric_limits<double>::infinity());
    };
    CHECK(grade_of({0, BlurUnit::arcmin}) == Grade::crisp);
    CHECK(grade_of({1.0, BlurUnit::arcmin}) == Grade::crisp);
    CHECK(grade_of({above(1.0), BlurUnit::arcmin}) == Grade::fine);
    CHECK(grade_of({2.75, BlurUnit::arcmin}) == Grade::fine);
    CHECK(grade_of({above(2.75), BlurUnit::arcmin}) == Grade::soft);
    CHECK(grade_of({8.0, BlurUnit::arcmin}) == Grade::soft);
    CHECK(grade_of({above(8.0), BlurUnit::arcmin}) == Grade::lost);

    CHECK(grade_of({1.5, BlurUnit::px}) == Grade::crisp);
    CHECK(grade_of({above(1.5), BlurUnit::px}) == Grade::fine);
    CHECK(grade_of({3.0, BlurUnit::px}) == Grade::fine);
    CHECK(grade_of({above(3.0), BlurUnit::px}) == Grade::soft);
    CHECK(grade_of({above(soft_limit_px), BlurUnit::px}) == Grade::lost);
}

TEST_CASE("a blur beyond all measure is lost, whichever way it is looked at",
          "[optics][property]") {
    const double infinity = std::numeric_limits<double>::infinity();
    const double nan = std::numeric_limits<double>::quiet_NaN();
    CHECK(grade_of({infinity, BlurUnit::arcmin}) == Grade::lost);
    CHECK(grade_of({infinity, BlurUnit::px}) == Grade::lost);
    CHECK(grade_of({nan, BlurUnit::arcmin}) == Grade::lost);
    CHECK(grade_of({nan, BlurUnit::px}) == Grade::lost);
}

TEST_CASE("grades are said in the four words of the trade", "[optics][property]") {
    CHECK(to_word(Grade::crisp) == std::string{"crisp"});
    CHECK(to_word(Grade::fine) == std::string{"fine"});
    CHECK(to_word(Grade::soft) == std::string{"soft"});
    CHECK(to_word(Grade::lost) == std::string{"lost"});
}
