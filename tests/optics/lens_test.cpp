#include "optics/blur/blur_circle.h"
#include "optics/lens/lens.h"

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
constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();

/// Sums and quotients of a handful of doubles: a few times 2⁻⁵³, with room.
constexpr double rounding = 1e-14;

}  // namespace

TEST_CASE("a lens that cannot form an image is refused", "[optics][property]") {
    CHECK(focused_lens({.focal_length_mm = 50, .f_number = 1.2, .focus_m = 3}));
    CHECK_FALSE(focused_lens({.focal_length_mm = 50, .f_number = 1.2, .focus_m = 0.05}));
    CHECK_FALSE(focused_lens({.focal_length_mm = 50, .f_number = 1.2, .focus_m = 0.04}));
    CHECK_FALSE(focused_lens({.focal_length_mm = 50, .f_number = 0, .focus_m = 3}));
    CHECK_FALSE(focused_lens({.focal_length_mm = 50, .f_number = -2, .focus_m = 3}));
    CHECK_FALSE(focused_lens({.focal_length_mm = 0, .f_number = 2, .focus_m = 3}));
    CHECK_FALSE(focused_lens({.focal_length_mm = -50, .f_number = 2, .focus_m = 3}));
    CHECK_FALSE(focused_lens({.focal_length_mm = not_a_number, .f_number = 2, .focus_m = 3}));
    CHECK_FALSE(focused_lens({.focal_length_mm = 50, .f_number = not_a_number, .focus_m = 3}));
    CHECK_FALSE(focused_lens({.focal_length_mm = 50, .f_number = 2, .focus_m = not_a_number}));
    CHECK_FALSE(focused_lens({.focal_length_mm = 50, .f_number = 2, .focus_m = infinity}));
}

// The blur of somebody at x when the lens is focused at s, b = (f²/N)|x − s|/(x(s − f)) [JACOBSON]
// section 4, worked out apart from this program for rows behind and before the focus.
// Tolerance: half of the last printed digit, 0.000005 mm.
TEST_CASE("rows before and behind the focus blur by the closed form", "[optics][published]") {
    struct Row {
        double axial_m, blur_mm;
    };
    const auto fifty = focused(50, 1.2, 3.0);
    for (const auto& row : {Row{2.7, 0.07847}, Row{3.3, 0.06420}, Row{3.6, 0.11770},
                            Row{4.2, 0.20178}, Row{infinity, 0.70621}})
        CHECK_THAT(blur_diameter_mm(fifty, row.axial_m), WithinAbs(row.blur_mm, 0.000005));

    const auto eighty_five = focused(85, 1.4, 4.0);
    for (const auto& row : {Row{3.6, 0.14647}, Row{4.3, 0.09197}, Row{4.6, 0.17194},
                            Row{5.2, 0.30420}, Row{infinity, 1.31819}})
        CHECK_THAT(blur_diameter_mm(eighty_five, row.axial_m), WithinAbs(row.blur_mm, 0.000005));
}

// [JACOBSON] section 4: at infinity the blur is the opening times the magnification, m f/N.
TEST_CASE("the blur of a far light is the opening times the magnification", "[optics][published]") {
    const auto lens = focused(85, 1.4, 4.0);
    CHECK_THAT(blur_diameter_mm(lens, infinity),
               WithinRel(magnification(lens) * aperture_diameter_mm(lens), rounding));
}

// Object-field view, x = (f/N)|x − s|/s, from memory after [MERKLINGER]: the disc that the blur
// covers in the row itself. It follows from the blur by dividing it
// by the magnification v/x at that row. Tolerance: half of the last printed digit, 0.0005 mm.
TEST_CASE("measured in the row itself the blur grows with the distance from the focus",
          "[optics][from-memory]") {
    struct Row {
        double axial_m, disc_mm;
    };
    const auto lens = focused(50, 1.2, 3.0);
    for (const auto& row : {Row{2.7, 4.167}, Row{3.3, 4.167}, Row{3.6, 8.333}, Row{4.2, 16.667}}) {
        const double disc_mm =
            blur_diameter_mm(lens, row.axial_m) * mm_from_m(row.axial_m) / image_distance_mm(lens);
        CHECK_THAT(disc_mm, WithinAbs(row.disc_mm, 0.0005));
    }
}

TEST_CASE("what is in the plane of focus has no blur at all", "[optics][property]") {
    for (const double focus_m : {0.3, 1.0 / 3.0, 3.048, 4.41, 77.7})
        CHECK(blur_diameter_mm(focused(50, 1.2, focus_m), focus_m) == 0.0);
}

TEST_CASE("a lens knows no distance at or behind itself", "[optics][property]") {
    const auto lens = focused(50, 1.2, 3);
    CHECK(std::isnan(blur_diameter_mm(lens, 0)));
    CHECK(std::isnan(blur_diameter_mm(lens, -1)));
    CHECK(std::isnan(blur_diameter_mm(lens, not_a_number)));
}

TEST_CASE("blur grows steadily away from the focus and stays below that of infinity",
          "[optics][property]") {
    const auto lens = focused(85, 1.4, 4);
    double before = 0;
    for (double axial_m = 4.001; axial_m < 1e9; axial_m *= 1.7) {
        const double blur_mm = blur_diameter_mm(lens, axial_m);
        CHECK(blur_mm > before);
        CHECK(blur_mm < blur_diameter_mm(lens, infinity));
        before = blur_mm;
    }
}

TEST_CASE("stopping down by two stops halves the blur", "[optics][property]") {
    CHECK_THAT(blur_diameter_mm(focused(50, 2.4, 3), 3.6),
               WithinRel(blur_diameter_mm(focused(50, 1.2, 3), 3.6) / 2, rounding));
}

// The Gaussian lens equation 1/f = 1/s + 1/v, of which v = f s/(s − f) is the solution.
TEST_CASE("lens, focus and sensor satisfy the lens equation", "[optics][property]") {
    for (const double focus_m : {0.11, 0.45, 3.0, 120.0}) {
        const auto lens = focused(100, 2.8, focus_m);
        CHECK_THAT(1 / mm_from_m(focus_m) + 1 / image_distance_mm(lens),
                   WithinRel(1 / 100.0, rounding));
        CHECK_THAT(magnification(lens),
                   WithinRel(image_distance_mm(lens) / mm_from_m(focus_m), 1e-13));
    }
}

// At life size the subject stands at 2f and the sensor too.
TEST_CASE("focused at twice its focal length a lens draws life size", "[optics][property]") {
    const auto lens = focused(50, 2, 0.1);
    CHECK_THAT(magnification(lens), WithinRel(1.0, rounding));
    CHECK_THAT(image_distance_mm(lens), WithinRel(100.0, rounding));
}

// [SMITH] ch. 6: the transverse blur of defocus goes with the opening. From f/1.2 to f/2 and to
// f/2.8 that leaves .6000 and .4286 of it. Tolerance: half a digit.
TEST_CASE("defocus shrinks as the f-number grows", "[optics][published]") {
    const double open_mm = blur_diameter_mm(focused(50, 1.2, 3), 3.6);
    CHECK_THAT(blur_diameter_mm(focused(50, 2, 3), 3.6) / open_mm, WithinAbs(0.6000, 0.00005));
    CHECK_THAT(blur_diameter_mm(focused(50, 2.8, 3), 3.6) / open_mm, WithinAbs(0.4286, 0.00005));
}

// Worked out apart: who comes closer at w moves the sharp image back by m²·w; 50 mm at 3 m, 1.4
// m/s: 0.4022 mm/s. Tolerance: half of the last digit; over 1 mm to either side of 3 m the slope is
// that of the middle to 1 in 10 million.
TEST_CASE("somebody who walks up moves the sharp image by m squared", "[optics][property]") {
    const auto image_mm = [](double focus_m) {
        const auto lens =
            focused_lens({.focal_length_mm = 50, .f_number = 1.2, .focus_m = focus_m});
        REQUIRE(lens);
        return image_distance_mm(*lens);
    };
    constexpr double step_m = 0.001;
    const double mm_a_metre = (image_mm(3 - step_m) - image_mm(3 + step_m)) / (2 * step_m);
    CHECK_THAT(1.4 * mm_a_metre, WithinAbs(0.4022, 0.00005));
}
