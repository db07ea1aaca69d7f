#include "optics/blur/focus_span.h"

#include "optics/blur/blur_circle.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

namespace backrow::optics {
namespace {

const LensProfile gentle{
    .widest_f_number = 1.2, .spherical_dpt = 0.05, .field_curvature_dpt = -0.04};

/// Where it is focused makes no difference to where it should be.
Lens fifty(double f_number, const LensProfile& profile = {}) {
    const auto lens = focused_lens(
        {.focal_length_mm = 50, .f_number = f_number, .focus_m = 3, .profile = profile});
    REQUIRE(lens);
    return *lens;
}

double blur_mm(const Lens& lens, const PointInView& point, double focus_m) {
    const auto focused = lens.focused_at(focus_m);
    REQUIRE(focused);
    return blur_diameter_mm(*focused, point.axial_m, image_height(*focused, point.field_tangent));
}

double worst_mm(const Lens& lens, const std::vector<PointInView>& points, double focus_m) {
    double worst = 0;
    for (const PointInView& point : points)
        worst = std::max(worst, blur_mm(lens, point, focus_m));
    return worst;
}

}  // namespace

// [NAVEDTRA14209]: to hold 9.8 ft to 10.2 ft focus at 10 ft.
// Tolerance: the manual prints tenths of a foot.
TEST_CASE("to hold a near and a far distance alike, focus at 2dD/(d + D) (NAVEDTRA 14209)",
          "[optics][published]") {
    constexpr double foot_m = 0.3048;
    const double focus_m = evenest_focus_m(fifty(2.8), {{9.8 * foot_m, 0}, {10.2 * foot_m, 0}});
    CHECK(focus_m / foot_m == Approx(10).margin(0.05));
    CHECK(evenest_focus_m(fifty(2.8), {{3.4, 0}, {2.8, 0}, {3, 0}}) ==
          Approx(balanced_focus_m(2.8, 3.4)).epsilon(1e-12));
}

// The blur is reckoned forwards, by blur_circle.h. Tolerance: rounding of the eight rounds.
TEST_CASE("at the ends of the span a point is blurred exactly to the limit", "[optics][property]") {
    for (const LensProfile& profile : {LensProfile{.widest_f_number = 1.2}, gentle})
        for (const double f_number : {1.2, 2.8})
            for (const PointInView point : {PointInView{3.1, 0}, PointInView{4.2, 0.3}}) {
                const auto lens = fifty(f_number, profile);
                const auto span = focus_span(lens, point, 0.06);
                REQUIRE(span);
                CHECK(blur_mm(lens, point, span->near_m) == Approx(0.06).epsilon(1e-9));
                CHECK(blur_mm(lens, point, span->far_m) == Approx(0.06).epsilon(1e-9));
                const double middle_m = (span->near_m + span->far_m) / 2;
                CHECK(blur_mm(lens, point, middle_m) < 0.06);
            }
}

TEST_CASE("a lens too soft for the limit holds nothing at any focus", "[optics][property]") {
    LensProfile soft = gentle;
    soft.spherical_dpt = 0.5;
    CHECK_FALSE(focus_span(fifty(1.2, soft), {3, 0}, 0.03));
    CHECK(focus_span(fifty(5.6, soft), {3, 0}, 0.03));
}

TEST_CASE("a point that holds with the lens at infinity has no far end of its span",
          "[optics][property]") {
    const auto span = focus_span(fifty(16), {40, 0}, 0.03);
    REQUIRE(span);
    CHECK(std::isinf(span->far_m));
    // A limit wider than the opening itself.
    const auto any = focus_span(fifty(16), {2, 0}, 10);
    REQUIRE(any);
    CHECK(std::isinf(any->far_m));
}

// Tolerance: within a step of 0.1 mm no grid point can be better than the least by more than the
// slope of the blur times the step, about 1e-5 mm here; we ask that none is better by rounding.
TEST_CASE("no focus on a fine grid leaves less blur than the evenest", "[optics][property]") {
    const std::vector<PointInView> points{{3.0, 0.1}, {3.3, 0.25}, {3.5, 0.0}};
    for (const LensProfile& profile : {LensProfile{.widest_f_number = 1.2}, gentle}) {
        const auto lens = fifty(1.4, profile);
        const double least_mm = worst_mm(lens, points, evenest_focus_m(lens, points));
        double grid_mm = std::numeric_limits<double>::infinity();
        for (double focus_m = 2.9; focus_m < 3.7; focus_m += 1e-4)
            grid_mm = std::min(grid_mm, worst_mm(lens, points, focus_m));
        CHECK(least_mm <= grid_mm * (1 + 1e-6));
    }
    // Faces side by side before a lens with spherical aberration: the bottom, not the middle.
    LensProfile soft = gentle;
    soft.field_curvature_dpt = 0;
    soft.spherical_dpt = 0.3;
    const auto lens = fifty(1.2, soft);
    const double focus_m = evenest_focus_m(lens, {{3, 0}});
    for (const double step : {-0.002, 0.002})
        CHECK(worst_mm(lens, {{3, 0}}, focus_m) < worst_mm(lens, {{3, 0}}, focus_m + step));
}

}  // namespace backrow::optics
