#include "optics/blur/blur_circle.h"
#include "optics/lens/lens_profile.h"

#include "optics/lens/lens.h"
#include "optics/lens/ray_error.h"
#include "optics/lens/spot.h"

#include "base/sequences.h"
#include "base/units.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>
#include <numbers>
#include <vector>

using namespace backrow;
using namespace backrow::optics;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

/// The first two terms of ray_error.h along the radius, written out.
double defocus_dpt(const LensProfile& profile, double f_number, double pupil, double image_height) {
    return profile.spherical_dpt * std::pow(profile.widest_f_number / f_number * pupil, 2) +
           profile.field_curvature_dpt * std::min(image_height * image_height, 2.0);
}

/// Light through many points of the opening, each bent as ray_error.h says, and
/// the disc with the second moment of where they land. Rays in rings of equal area and evenly
/// spaced directions; knows nothing of the closed form.
double traced_diameter_mm(const LensProfile& profile, const LensSettings& settings, double axial_m,
                          double image_height) {
    const auto lens = focused_lens(settings);
    REQUIRE(lens);
    const double radius_m = m_from_mm(aperture_diameter_mm(*lens)) / 2;
    constexpr int rings = 4000;
    constexpr int directions = 8;
    double sum_mm2 = 0;
    for (int ring = 0; ring < rings; ++ring) {
        const double pupil = std::sqrt((ring + 0.5) / rings);
        for (int direction = 0; direction < directions; ++direction) {
            const double angle = 2 * std::numbers::pi * direction / directions;
            const double vergence_dpt =
                1 / settings.focus_m +
                defocus_dpt(profile, settings.f_number, pupil, image_height) - 1 / axial_m;
            const double x_mm =
                image_distance_mm(*lens) * radius_m * pupil * std::cos(angle) * vergence_dpt;
            const double y_mm =
                image_distance_mm(*lens) * radius_m * pupil * std::sin(angle) * vergence_dpt;
            sum_mm2 += x_mm * x_mm + y_mm * y_mm;
        }
    }
    return 2 * std::sqrt(2 * sum_mm2 / (rings * directions));
}

double spot_mm(const LensProfile& profile, LensSettings settings, double axial_m,
               double image_height) {
    settings.profile = profile;
    const auto lens = focused_lens(settings);
    REQUIRE(lens);
    return blur_diameter_mm(*lens, axial_m, image_height);
}

}  // namespace

TEST_CASE("a lens without errors is the perfect lens", "[optics][property]") {
    const LensSettings settings{.focal_length_mm = 50, .f_number = 1.2, .focus_m = 3};
    const auto lens = focused_lens(settings);
    REQUIRE(lens);
    const LensProfile perfect{.widest_f_number = 1.2};
    for (const double axial_m : {0.5, 2.7, 3.0, 3.3, 4.2, infinity})
        for (const double image_height : {0.0, 0.6, 1.0})
            CHECK_THAT(spot_mm(perfect, settings, axial_m, image_height),
                       WithinAbs(blur_diameter_mm(*lens, axial_m), 1e-15));
}

// Tolerance: the midpoint rule over zones of equal area integrates a cubic in ρ² with a relative
// error of about 1/rings², 6e-8; asked for within 1e-6.
TEST_CASE("the closed form is the light traced through the whole opening", "[optics][property]") {
    const LensSettings wide{.focal_length_mm = 85, .f_number = 1.4, .focus_m = 2.5};
    for (const double f_number : {1.4, 2.0, 2.8})
        for (const double spherical_dpt : {-0.08, 0.0, 0.05})
            for (const double curvature_dpt : {-0.1, 0.07})
                for (const double axial_m : {2.2, 2.5, 2.9, infinity})
                    for (const double image_height : {0.0, 0.7, 1.0}) {
                        LensSettings settings = wide;
                        settings.f_number = f_number;
                        const LensProfile profile{.widest_f_number = 1.4,
                                                  .spherical_dpt = spherical_dpt,
                                                  .field_curvature_dpt = curvature_dpt};
                        CHECK_THAT(
                            spot_mm(profile, settings, axial_m, image_height),
                            WithinAbs(traced_diameter_mm(profile, settings, axial_m, image_height),
                                      1e-9) ||
                                WithinRel(
                                    traced_diameter_mm(profile, settings, axial_m, image_height),
                                    1e-6));
                    }
}

// Rays through the polygon itself, even over it. Their disc is larger than the prediction's by no
// more than the polygon's own second moment allows (0.85 % for five blades, less for more), since
// the f-number goes by its area. Tolerance: that, and a thousandth for the points.
TEST_CASE("blades bend what spherical aberration does as their rays say", "[optics][property]") {
    for (const int blades : {5, 6, 7, 9, 15})
        for (const double spherical_dpt : {-0.05, 0.06})
            for (const double axial_m : {2.8, 3.0, 3.2, 6.0}) {
                const LensProfile profile{.widest_f_number = 1.2, .spherical_dpt = spherical_dpt};
                const auto lens = focused_lens(
                    {.f_number = 1.2, .focus_m = 3, .profile = profile, .blades = blades});
                REQUIRE(lens);
                double sum = 0;
                const std::vector<Point2> points = disc_points(20000);
                for (const Point2& point : points) {
                    const Point2 pupil = polygon_from_disc(point, blades);
                    const double radius = std::hypot(pupil.x, pupil.y);
                    sum += std::pow(
                        radius * (1 / 3.0 + defocus_dpt(profile, 1.2, radius, 0) - 1 / axial_m), 2);
                }
                const double traced_mm = image_distance_mm(*lens) *
                                         m_from_mm(aperture_diameter_mm(*lens)) *
                                         std::sqrt(2 * sum / static_cast<double>(points.size()));
                const double t = std::tan(std::numbers::pi / blades);
                const double wider = std::sqrt(std::numbers::pi / (blades * t) * (1 + t * t / 3));
                INFO(blades << " blades, " << spherical_dpt << " dpt, " << axial_m << " m");
                CHECK_THAT(traced_mm, WithinRel(blur_diameter_mm(*lens, axial_m) * wider, 1e-3));
            }
}

// [SMITH] ch. 6: the transverse blur of spherical aberration goes with the cube of the opening.
// Stopping down from f/1.2 to f/2 leaves .2160 of it, to f/2.8 .0787. Tolerance: half a digit.
TEST_CASE("spherical aberration goes with the cube of the opening", "[optics][published]") {
    const LensProfile profile{.widest_f_number = 1.2, .spherical_dpt = 0.05};
    const auto at = [&](double f_number) {
        return spot_mm(profile, {.focal_length_mm = 50, .f_number = f_number, .focus_m = 3}, 3, 0);
    };
    CHECK_THAT(at(2.0) / at(1.2), WithinAbs(0.2160, 0.00005));
    CHECK_THAT(at(2.8) / at(1.2), WithinAbs(0.0787, 0.00005));
}

// [SMITH] ch. 6: field curvature goes with the opening and the square of the image height.
// .6 from f/1.2 to f/2; a quarter from the corner to half way. Tolerance: half a printed digit, and
// rounding.
TEST_CASE("field curvature goes with the opening and the square of the image height",
          "[optics][published]") {
    const LensProfile profile{.widest_f_number = 1.2, .field_curvature_dpt = 0.1};
    const auto at = [&](double f_number, double image_height) {
        return spot_mm(profile, {.focal_length_mm = 50, .f_number = f_number, .focus_m = 3}, 3,
                       image_height);
    };
    CHECK_THAT(at(2.0, 1) / at(1.2, 1), WithinAbs(0.6000, 0.00005));
    CHECK_THAT(at(1.2, 0.5) / at(1.2, 1), WithinRel(0.25, 1e-12));
    CHECK(at(1.2, 0) == 0);
}

// The disc is smallest where the mean zone is in focus, at two thirds of the way from the axis'
// focus to the edge's; there it is v D a/√18, a third of what it is at the axis' own focus, v D
// a/√2. Tolerance: rounding of 1/(1/s + 2a/3).
TEST_CASE("a lens with spherical aberration focuses best two thirds of the way to its edge",
          "[optics][property]") {
    const LensSettings settings{.focal_length_mm = 50, .f_number = 1.2, .focus_m = 3};
    const LensProfile profile{.widest_f_number = 1.2, .spherical_dpt = 0.06};
    const double best_m = 1 / (1.0 / 3 + 0.06 * 2 / 3);
    const double best_mm = spot_mm(profile, settings, best_m, 0);
    CHECK_THAT(best_mm, WithinRel(spot_mm(profile, settings, 3, 0) / 3, 1e-9));
    CHECK(best_mm < spot_mm(profile, settings, best_m * 0.999, 0));
    CHECK(best_mm < spot_mm(profile, settings, best_m * 1.001, 0));
}

TEST_CASE("the middle of the opening and of the picture is free of errors", "[optics][property]") {
    const LensProfile profile{
        .widest_f_number = 1.2, .spherical_dpt = 0.05, .field_curvature_dpt = 0.1};
    const auto across_dpt = [&](double f_number, double pupil, double image_height) {
        return ray_error_dpt(profile, f_number, {0, pupil}, {image_height, 0}).y;
    };
    CHECK(across_dpt(1.2, 0, 0) == 0);
    CHECK(across_dpt(2.4, 0, 1) == 0);
    CHECK_THAT(across_dpt(1.2, 1, 0), WithinRel(0.05, 1e-14));
    CHECK_THAT(across_dpt(2.4, 1, 0), WithinRel(0.0125, 1e-14));
    CHECK_THAT(across_dpt(2.4, 0.5, 1), WithinRel(0.5 * (0.0125 / 4 + 0.1), 1e-14));
}

// A rule, not an optical law: see most_image_height_squared.
TEST_CASE("outside the picture the field curves on as far as √2 corners, and no further",
          "[optics][property]") {
    const LensProfile profile{
        .widest_f_number = 1.2, .spherical_dpt = 0.06, .field_curvature_dpt = -0.1};
    const auto lens = focused_lens({.f_number = 1.2, .profile = profile});
    REQUIRE(lens);
    const auto curved_dpt = [&](double image_height) {
        return spot_at(*lens, image_height).best_focus_dpt - spot_at(*lens, 0).best_focus_dpt;
    };
    CHECK_THAT(curved_dpt(1.2), WithinRel(-0.144, 1e-12));
    CHECK_THAT(curved_dpt(std::numbers::sqrt2), WithinRel(-0.2, 1e-12));
    CHECK_THAT(curved_dpt(1.5), WithinRel(-0.2, 1e-12));
    CHECK_THAT(curved_dpt(40), WithinRel(-0.2, 1e-12));
    CHECK_THAT(ray_error_dpt(profile, 1.2, {1, 0}, {0, 40}).x, WithinRel(0.06 - 0.2, 1e-12));
}

TEST_CASE("there is no spot where no image can form", "[optics][property]") {
    const LensProfile profile{};
    CHECK_FALSE(focused_lens(
        {.focal_length_mm = 50, .f_number = 1.2, .focus_m = 0.05, .profile = profile}));
    CHECK(
        std::isnan(spot_mm(profile, {.focal_length_mm = 50, .f_number = 1.2, .focus_m = 3}, 0, 0)));
    CHECK(std::isnan(
        spot_mm(profile, {.focal_length_mm = 50, .f_number = 1.2, .focus_m = 3}, -1, 0)));
}
