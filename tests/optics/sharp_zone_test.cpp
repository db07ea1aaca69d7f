#include "optics/blur/blur_circle.h"
#include "optics/blur/focus_span.h"
#include "optics/blur/sharp_zone.h"

#include "base/units.h"

#include "focused.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>

using namespace backrow;
using namespace backrow::optics;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();
constexpr double foot_m = 0.3048;
constexpr double inch_mm = 25.4;

/// Half of the last of four printed digits, and half of a fifth: the table below was rounded to
/// five digits and then to four (210.249 became 210.25 and so 210.3).
double rounded_twice(double printed) {
    return 0.55 * std::pow(10.0, std::floor(std::log10(printed)) - 3);
}

}  // namespace

// [NAVEDTRA14209]: a 6.1 inch (155 mm) lens at f/2.8 focused at 10 ft is sharp from 9.8 to 10.2 ft;
// its hyperfocal distance, 554 ft, implies a circle of 0.002 in.
// Tolerance: the manual prints distances to 0.1 ft, so half a printed digit, 0.05 ft; the depth is
// the difference of two printed distances, so twice that.
TEST_CASE("a portrait lens at ten feet is sharp over four tenths of a foot (NAVEDTRA 14209)",
          "[optics][published]") {
    const auto zone = sharp_zone(focused(155, 2.8, 10 * foot_m), 0.002 * inch_mm);
    CHECK_THAT(zone.near_m / foot_m, WithinAbs(9.8, 0.05));
    CHECK_THAT(zone.far_m / foot_m, WithinAbs(10.2, 0.05));
    CHECK_THAT((zone.far_m - zone.near_m) / foot_m, WithinAbs(0.4, 0.1));
}

// [NAVEDTRA14209]: the same lens, 6.1 in at f/2.8: 554 ft, by H = f²/(N c) without the focal length
// itself. Tolerance: half a printed foot, and the half foot that the missing f makes.
TEST_CASE("the hyperfocal distance of a portrait lens is 554 feet (NAVEDTRA 14209)",
          "[optics][published]") {
    const double f_mm = 6.1 * inch_mm;
    CHECK_THAT(hyperfocal_m(f_mm, 2.8, 0.002 * inch_mm) / foot_m,
               WithinAbs(554, 0.5 + m_from_mm(f_mm) / foot_m));
}

// [NAVEDTRA14209]: to hold 9.8 ft and 10.2 ft focus at 10 ft. Tolerance: half a printed digit.
TEST_CASE("to hold two distances focus at twice their product over their sum (NAVEDTRA 14209)",
          "[optics][published]") {
    CHECK_THAT(balanced_focus_m(9.8 * foot_m, 10.2 * foot_m) / foot_m, WithinAbs(10.0, 0.05));
}

// [JACOBSON] lens FAQ section 11: focused at an eighth of the hyperfocal distance, everything from
// 8/9 to 8/7 of the focus is sharp. That text uses H = f²/(N c) and near = H s/(H + s); the exact
// forms put s − f in place of s, which moves the far end by (8/7)²·f/8, just under f/6, and the
// near end by less.
TEST_CASE("at an eighth of the hyperfocal distance the zone runs from 8/9 to 8/7",
          "[optics][published]") {
    const double limit_mm = 0.03;
    const double far_focus_m = m_from_mm(50.0 * 50.0 / (2.0 * limit_mm));
    const double focus_m = far_focus_m / 8;
    const auto zone = sharp_zone(focused(50, 2, focus_m), limit_mm);
    const double tolerance_m = m_from_mm(50) / 6;
    CHECK_THAT(zone.near_m, WithinAbs(focus_m * 8 / 9, tolerance_m));
    CHECK_THAT(zone.far_m, WithinAbs(focus_m * 8 / 7, tolerance_m));
}

// Worked out apart from this program by near = s f²/(f² + N c (s − f)), far likewise with −, circle
// 0.030 mm, f-numbers as marked; the forms are those of [RAY2002], from memory.
// Tolerance: half of the last printed digit; see rounded_twice().
TEST_CASE("near and far limits, depth, and its shares before and behind the focus",
          "[optics][from-memory]") {
    struct Row {
        double focal_length_mm, f_number, focus_mm, near_mm, far_mm, total_mm, front_mm, back_mm;
    };
    for (const auto& row : {
             Row{50, 1.2, 1524, 1492.3, 1557.0, 64.72, 31.68, 33.05},
             Row{50, 1.2, 3048, 2921.9, 3185.5, 263.7, 126.1, 137.5},
             Row{50, 2.0, 3048, 2843.4, 3284.3, 440.9, 204.6, 236.3},
             Row{50, 2.8, 3048, 2769.1, 3389.4, 620.4, 278.9, 341.4},
             Row{50, 2.8, 4572, 3969.0, 5391.1, 1422, 603.0, 819.1},
             Row{50, 4.0, 1524, 1423.3, 1640.0, 216.7, 100.7, 116.0},
             Row{50, 4.0, 3048, 2664.6, 3560.3, 895.8, 383.4, 512.4},
             Row{85, 1.4, 3048, 2996.4, 3101.4, 105.0, 51.61, 53.42},
             Row{85, 1.4, 4572, 4455.8, 4694.4, 238.7, 116.2, 122.5},
             Row{85, 2.8, 3048, 2946.5, 3156.7, 210.3, 101.5, 108.8},
             Row{35, 1.4, 1524, 1450.0, 1606.0, 156.0, 74.02, 81.99},
             Row{35, 1.4, 4572, 3956.5, 5414.2, 1458, 615.5, 842.2},
             Row{35, 2.8, 3048, 2526.1, 3841.7, 1316, 521.9, 793.7},
         }) {
        CAPTURE(row.focal_length_mm, row.f_number, row.focus_mm);
        const double focus_m = m_from_mm(row.focus_mm);
        const auto zone = sharp_zone(focused(row.focal_length_mm, row.f_number, focus_m), 0.030);
        const auto check = [](double metres, double printed_mm, double tolerance_mm) {
            CHECK_THAT(mm_from_m(metres), WithinAbs(printed_mm, tolerance_mm));
        };
        check(zone.near_m, row.near_mm, 0.05);
        check(zone.far_m, row.far_mm, 0.05);
        check(zone.far_m - zone.near_m, row.total_mm, rounded_twice(row.total_mm));
        check(focus_m - zone.near_m, row.front_mm, rounded_twice(row.front_mm));
        check(zone.far_m - focus_m, row.back_mm, rounded_twice(row.back_mm));
    }
}

// The same on the exact scale of f-numbers, powers of √2 and their half stop 2^¼ [ISO517], from
// memory; depth must follow the number it is given and not snap. Tolerance: half of the last
// printed digit.
TEST_CASE("depth of field uses the f-number as given, marked or exact", "[optics][from-memory]") {
    struct Row {
        double focal_length_mm, f_number, total_mm;
    };
    for (const auto& row :
         {Row{50, 1.18921, 261.3}, Row{85, 1.41421356, 106.1}, Row{50, 2.82843, 626.8}}) {
        const auto zone =
            sharp_zone(focused(row.focal_length_mm, row.f_number, 10 * foot_m), 0.030);
        CHECK_THAT(mm_from_m(zone.far_m - zone.near_m), WithinAbs(row.total_mm, 0.05));
    }
}

// Focus at 2dD/(d + D) [NAVEDTRA14209], worked out apart: nearest 2800, farthest 3400 mm: 3070.97,
// and the f-number that brings both to 0.030 mm is 2.670 for 50 mm, 7.805 for 85 mm.
// Tolerance: half a printed digit; for the f-number 0.0005 of 2.670 and 7.805 in the blur.
TEST_CASE("balanced focus holds front and back row alike", "[optics][published]") {
    const double focus_m = balanced_focus_m(2.8, 3.4);
    CHECK_THAT(mm_from_m(focus_m), WithinAbs(3070.97, 0.005));
    const auto fifty = focused(50, 2.670, focus_m);
    CHECK_THAT(blur_diameter_mm(fifty, 2.8), WithinRel(0.030, 0.0005 / 2.670));
    CHECK_THAT(blur_diameter_mm(fifty, 3.4), WithinRel(0.030, 0.0005 / 2.670));
    const auto eighty_five = focused(85, 7.805, focus_m);
    CHECK_THAT(blur_diameter_mm(eighty_five, 2.8), WithinRel(0.030, 0.0005 / 7.805));
    CHECK_THAT(blur_diameter_mm(eighty_five, 3.4), WithinRel(0.030, 0.0005 / 7.805));
}

TEST_CASE("balanced with the horizon is twice the nearest distance", "[optics][property]") {
    CHECK(balanced_focus_m(3.0, infinity) == 6.0);
    CHECK(balanced_focus_m(3.0, 3.0) == 3.0);
    CHECK(balanced_focus_m(2.8, 3.4) == balanced_focus_m(3.4, 2.8));
}

// The blur is computed in one file, its zone in another: they must be each other's inverse.
// Tolerance: rounding of 1/s − 1/d, about 2⁻⁵² s/(d − s) with s/(d − s) at most 100 here.
TEST_CASE("at both ends of the zone the blur is the limit", "[optics][property]") {
    for (const double f_number : {1.2, 2.8, 5.6}) {
        const auto lens = focused(85, f_number, 4.0);
        const auto zone = sharp_zone(lens, 0.03);
        CHECK_THAT(blur_diameter_mm(lens, zone.near_m), WithinRel(0.03, 1e-12));
        CHECK_THAT(blur_diameter_mm(lens, zone.far_m), WithinRel(0.03, 1e-12));
    }
}

TEST_CASE("a zone without any tolerance is the plane of focus itself", "[optics][property]") {
    const auto zone = sharp_zone(focused(50, 1.2, 4.41), 0);
    CHECK(zone.near_m == 4.41);
    CHECK(zone.far_m == 4.41);
}

// Near end for s = H = f²/(N c) + f: 1/near = 1/H + 1/H, so H/2. Tolerance: rounding, and the push
// of 1e-12 that decides which side of infinity the far end falls on.
TEST_CASE("focused at the hyperfocal distance all from its half on is sharp",
          "[optics][property]") {
    const double focus_m = hyperfocal_m(35, 8, 0.03);
    const auto beyond = sharp_zone(focused(35, 8, focus_m * (1 + 1e-12)), 0.03);
    CHECK(beyond.far_m == infinity);
    CHECK_THAT(beyond.near_m, WithinRel(focus_m / 2, 1e-11));
    CHECK(std::isfinite(sharp_zone(focused(35, 8, focus_m * (1 - 1e-12)), 0.03).far_m));
}

// With q = N c (s − f)/f² the zone runs from s/(1 + q) to s/(1 − q) and is 2 s q/(1 − q²) deep. At
// twice the distance q₂ = (2 + m) q, m = f/(s − f), so the depth grows by
// 4 (1 + m/2) (1 − q²)/(1 − q₂²): never by less than four, and by little more while q₂ is small,
// that is, far within the hyperfocal distance (q = 1 at that distance).
TEST_CASE("twice as far away there is four times the depth of field", "[optics][property]") {
    constexpr double limit_mm = 0.03;
    for (const double f_number : {1.2, 2.0, 2.8})
        for (const double focus_m : {1.5, 2.0}) {
            const auto near_lens = focused(85, f_number, focus_m);
            const auto far_lens = focused(85, f_number, 2 * focus_m);
            const auto depth_m = [](const Lens& lens) {
                const AxialRange zone = sharp_zone(lens, limit_mm);
                return zone.far_m - zone.near_m;
            };
            const double q_far = f_number * limit_mm * (mm_from_m(2 * focus_m) - 85) / (85 * 85);
            const double most = (1 + magnification(near_lens) / 2) / (1 - q_far * q_far);
            CAPTURE(f_number, focus_m, most);
            REQUIRE(most < 1.04);
            const double growth = depth_m(far_lens) / depth_m(near_lens);
            CHECK(growth >= 4);
            CHECK(growth <= 4 * most);
        }
}

// At the same size in the picture, m = f/(s − f) for every lens, q = N c/(f m), and the depth
// 2 s q/(1 − q²) becomes 2 N c (1 + m)/m² · 1/(1 − q²): the focal length is in the last factor
// alone, which is between 1 and that of the shortest lens.
TEST_CASE("framed alike, a long lens has nearly the depth of field of a short one",
          "[optics][property]") {
    constexpr double limit_mm = 0.03, f_number = 2.8, m = 1.0 / 40;
    const double common_mm = 2 * f_number * limit_mm * (1 + m) / (m * m);
    double shorter_lens_mm = infinity;
    for (const double focal_length_mm : {35.0, 50.0, 85.0, 135.0}) {
        CAPTURE(focal_length_mm);
        const auto lens =
            focused(focal_length_mm, f_number, m_from_mm(focal_length_mm * (1 + 1 / m)));
        REQUIRE_THAT(magnification(lens), WithinRel(m, 1e-12));
        const AxialRange zone = sharp_zone(lens, limit_mm);
        const double depth_mm = mm_from_m(zone.far_m - zone.near_m);
        const double q = f_number * limit_mm / (focal_length_mm * m);
        CHECK(depth_mm >= common_mm);
        CHECK(depth_mm <= common_mm / (1 - q * q) * (1 + 1e-12));
        CHECK(depth_mm < shorter_lens_mm);
        shorter_lens_mm = depth_mm;
    }
}
