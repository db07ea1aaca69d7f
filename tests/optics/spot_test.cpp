#include "optics/lens/spot.h"

#include "optics/blur/blur_circle.h"
#include "optics/blur/focus_span.h"
#include "optics/lens/light_loss.h"
#include "optics/lens/ray_error.h"

#include "base/sequences.h"
#include "base/units.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>
#include <vector>

using namespace backrow;
using namespace backrow::optics;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

Lens fifty(double f_number, const LensProfile& profile) {
    const auto lens = focused_lens(
        {.focal_length_mm = 50, .f_number = f_number, .focus_m = 3, .profile = profile});
    REQUIRE(lens);
    return *lens;
}

/// All that can be wrong with a lens, of the size of ordinary faults.
const LensProfile difficult{.widest_f_number = 1.4,
                            .spherical_dpt = 0.04,
                            .field_curvature_dpt = -0.05,
                            .astigmatism_dpt = 0.06,
                            .coma_dpt = 0.03,
                            .longitudinal_colour_dpt = {0.02, 0.003, -0.02},
                            .vignetting = 0.9,
                            .focus_offset_dpt = -0.004};

/// The aberrations written out in the frame of the radius, as handbooks have them: coma
/// (2 + cos 2φ, sin 2φ) ρ² h, astigmatism of ±½ along and across.
Point2 handbook_error_dpt(const LensProfile& profile, double f_number, double rho, double phi,
                          double h) {
    const double used = profile.widest_f_number / f_number;
    const double even = profile.spherical_dpt * used * used * rho * rho +
                        profile.field_curvature_dpt * h * h + profile.focus_offset_dpt +
                        profile.longitudinal_colour_dpt[1];
    const double split = profile.astigmatism_dpt / 2 * h * h;
    const double coma = profile.coma_dpt * used * h * rho * rho;
    return {(even + split) * rho * std::cos(phi) + coma * (2 + std::cos(2 * phi)),
            (even - split) * rho * std::sin(phi) + coma * std::sin(2 * phi)};
}

/// Diameter of the disc with the second moment of the rays that pass opening and rims: even points,
/// no closed form.
double traced_mm(const Lens& lens, double axial_m, double h) {
    const LensProfile& profile = lens.profile();
    const double rim = lens.f_number() / profile.widest_f_number;
    const double off = profile.vignetting / 2 * h * rim;
    double n = 0, x = 0, y = 0, squares = 0;
    for (const Point2& p : disc_points(40000)) {
        if (std::hypot(std::abs(p.x) + off, p.y) > rim)
            continue;
        const Point2 bent = handbook_error_dpt(profile, lens.f_number(), std::hypot(p.x, p.y),
                                               std::atan2(p.y, p.x), h);
        const double e = 1 / lens.focus_m() - 1 / axial_m;
        const Point2 at{e * p.x + bent.x, e * p.y + bent.y};
        n += 1;
        x += at.x;
        y += at.y;
        squares += at.x * at.x + at.y * at.y;
    }
    const double spread = squares / n - (x * x + y * y) / (n * n);
    return image_distance_mm(lens) * m_from_mm(aperture_diameter_mm(lens)) * std::sqrt(2 * spread);
}

}  // namespace

TEST_CASE("a ray is bent as handbooks have it, whichever way its image lies",
          "[optics][property]") {
    for (const double turn : {0.0, 0.7, 2.5})
        for (const double phi : {0.0, 1.1, 3.9})
            for (const double h : {0.3, 1.0}) {
                const Point2 pupil = turned({0.8, 0}, phi + turn);
                const Point2 bent = ray_error_dpt(difficult, 2.0, pupil, turned({h, 0}, turn));
                const Point2 expected =
                    turned(handbook_error_dpt(difficult, 2.0, 0.8, phi, h), turn);
                CHECK_THAT(bent.x, WithinAbs(expected.x, 1e-15));
                CHECK_THAT(bent.y, WithinAbs(expected.y, 1e-15));
            }
}

// Tolerance: which of 40,000 points the rim cuts off is unsure by some √40000 of them, and these
// lie where they count most, at the edge: a two-hundredth part of a quarter.
TEST_CASE("the spot of any lens is that of its rays", "[optics][property]") {
    for (const double f_number : {1.4, 2.0, 4.0})
        for (const double vignetting : {0.0, 0.5, 1.2})
            for (const double h : {0.0, 0.4, 0.8, 1.0})
                for (const double axial_m : {2.6, 2.98, 3.0, 3.05, 8.0}) {
                    LensProfile profile = difficult;
                    profile.vignetting = vignetting;
                    const Lens lens = fifty(f_number, profile);
                    INFO("f/" << f_number << ", rim " << vignetting << ", at " << h << ", "
                              << axial_m << " m");
                    CHECK_THAT(blur_diameter_mm(lens, axial_m, h),
                               WithinRel(traced_mm(lens, axial_m, h), 0.002));
                }
}

// Tolerance: eight strips an arc do to some millionths.
TEST_CASE("the spot changes without a step where the rim begins to cut", "[optics][property]") {
    const Lens lens = fifty(2.0, difficult);
    const double begins = 2 * (1 - 1.4 / 2.0) / difficult.vignetting;
    const Spot whole = spot_at(lens, begins - 1e-7), cut = spot_at(lens, begins + 1e-7);
    CHECK(whole.spread == 1);
    CHECK(cut.spread != 1);
    CHECK_THAT(cut.spread, WithinAbs(1, 5e-6));
    CHECK_THAT(cut.best_focus_dpt, WithinAbs(whole.best_focus_dpt, 5e-6));
    CHECK_THAT(cut.residual_dpt, WithinAbs(whole.residual_dpt, 5e-6));
}

// [SMITH] ch. 6: the blur of coma goes with y²h, that of astigmatism with y h², y the opening. From
// f/1.2 to f/2 .3600 of coma and .6000 of astigmatism are left, to f/2.8 .1837 and .4286.
// Tolerance: half a digit.
TEST_CASE("coma goes with the square of the opening, astigmatism with that of the height",
          "[optics][published]") {
    const auto at = [](const LensProfile& profile, double f_number, double h) {
        return blur_diameter_mm(fifty(f_number, profile), 3, h);
    };
    const LensProfile coma{.widest_f_number = 1.2, .coma_dpt = 0.05};
    CHECK_THAT(at(coma, 2.0, 1) / at(coma, 1.2, 1), WithinAbs(0.3600, 0.00005));
    CHECK_THAT(at(coma, 2.8, 1) / at(coma, 1.2, 1), WithinAbs(0.1837, 0.00005));
    CHECK_THAT(at(coma, 1.2, 0.5) / at(coma, 1.2, 1), WithinRel(0.5, 1e-12));
    const LensProfile astigmatism{.widest_f_number = 1.2, .astigmatism_dpt = 0.05};
    CHECK_THAT(at(astigmatism, 2.0, 1) / at(astigmatism, 1.2, 1), WithinAbs(0.6000, 0.00005));
    CHECK_THAT(at(astigmatism, 2.8, 1) / at(astigmatism, 1.2, 1), WithinAbs(0.4286, 0.00005));
    CHECK_THAT(at(astigmatism, 1.2, 0.5) / at(astigmatism, 1.2, 1), WithinRel(0.25, 1e-12));
}

// With the tangential line in focus all rays land on a line along the other way, and the other way
// round; between them, where both are off alike, the spot is round and least.
TEST_CASE("astigmatism draws a point into lines on either side of its best focus",
          "[optics][property]") {
    const LensProfile profile{.widest_f_number = 1.4, .astigmatism_dpt = 0.05};
    const auto lands = [&](double e, const Point2& p) {
        const Point2 bent = ray_error_dpt(profile, 1.4, p, {0, 1});
        return Point2{e * p.x + bent.x, e * p.y + bent.y};
    };
    for (const Point2& p : disc_points(50)) {
        CHECK_THAT(lands(-0.025, p).y, WithinAbs(0, 1e-15));
        CHECK_THAT(lands(0.025, p).x, WithinAbs(0, 1e-15));
        CHECK_THAT(std::hypot(lands(0, p).x, lands(0, p).y),
                   WithinRel(0.025 * std::hypot(p.x, p.y), 1e-12));
    }
    CHECK(spot_at(fifty(1.4, profile), 1).best_focus_dpt == 0);
}

// Two equal circles d radii apart have (2 acos(d/2) − (d/2) √(4 − d²))/π of their area in common;
// worked out apart: .841260, .685038, .391002. Tolerance: half a digit.
TEST_CASE("what the rim leaves of the widest opening is what two discs have in common",
          "[optics][property]") {
    for (const auto& [off, share] : {std::pair{0.25, 0.841260}, {0.5, 0.685038}, {1.0, 0.391002}})
        CHECK_THAT(open_share({.rim_radius = 1, .rim_off = off / 2}), WithinAbs(share, 5e-7));
    const LensProfile profile{.widest_f_number = 1.4, .vignetting = 1};
    CHECK_THAT(open_share(vignetted_opening(profile, 1.4, 0.5)), WithinAbs(0.685038, 5e-7));
    CHECK(open_share(vignetted_opening(profile, 1.4, 0)) == 1);
}

// Tolerance: the edge of either disc passes between points; 40,000 of them count an area to a
// five-hundredth.
TEST_CASE("stopping down lets the rim cut less, and in the end nothing", "[optics][property]") {
    const LensProfile profile{.widest_f_number = 1.4, .vignetting = 1.1};
    double before = 0;
    for (const double f_number : {1.4, 2.0, 2.8, 4.0, 8.0, 16.0}) {
        const auto opening = vignetted_opening(profile, f_number, 1);
        int inside = 0;
        for (const Point2& p : disc_points(40000))
            inside += std::hypot(p.x - opening.rim_off, p.y) <= opening.rim_radius &&
                              std::hypot(p.x + opening.rim_off, p.y) <= opening.rim_radius
                          ? 1
                          : 0;
        CHECK_THAT(open_share(opening), WithinAbs(inside / 40000.0, 0.002));
        CHECK(open_share(opening) >= before);
        before = open_share(opening);
    }
    CHECK(before == 1);
}

// Tolerance: means over 20,000 points are good to a thousandth.
TEST_CASE("points brought to where the lens is open fill what is left of it evenly",
          "[optics][property]") {
    for (const double f_number : {1.4, 2.0})
        for (const double h : {0.5, 1.0}) {
            const LensProfile profile{.widest_f_number = 1.4, .vignetting = 1.1};
            const auto opening = vignetted_opening(profile, f_number, h);
            double x2 = 0, y2 = 0;
            for (const Point2& point : disc_points(20000)) {
                const Point2 open = point_left_open(opening, point);
                CHECK(std::hypot(open.x, open.y) <= 1 + 1e-9);
                CHECK(std::hypot(std::abs(open.x) + opening.rim_off, open.y) <=
                      opening.rim_radius + 1e-9);
                x2 += open.x * open.x / 20000;
                y2 += open.y * open.y / 20000;
            }
            double inside = 0, x2_inside = 0, y2_inside = 0;
            for (const Point2& p : disc_points(200000))
                if (std::hypot(std::abs(p.x) + opening.rim_off, p.y) <= opening.rim_radius) {
                    inside += 1;
                    x2_inside += p.x * p.x;
                    y2_inside += p.y * p.y;
                }
            CHECK_THAT(x2, WithinAbs(x2_inside / inside, 0.001));
            CHECK_THAT(y2, WithinAbs(y2_inside / inside, 0.001));
        }
}

// cos⁴ of 10, 20 and 30 degrees, and of the corner of 36 × 24 mm at infinity for 35 and 50 mm,
// worked out apart. Tolerance: half a digit.
TEST_CASE("natural falloff is the fourth power of the cosine", "[optics][property]") {
    const auto share = [](double focal_length_mm, double natural) {
        const auto lens = focused_lens({.focal_length_mm = focal_length_mm,
                                        .f_number = 8,
                                        .focus_m = 1e9,
                                        .profile = {.natural_falloff = natural}});
        REQUIRE(lens);
        return light_share(*lens, 1);
    };
    CHECK_THAT(share(35, 1), WithinAbs(0.52355, 0.000005));
    CHECK_THAT(share(50, 1), WithinAbs(0.70950, 0.000005));
    CHECK_THAT(share(50, 0.5), WithinAbs(std::sqrt(0.70950), 0.000005));
    const double corner = full_frame_half_diagonal_mm;
    CHECK_THAT(share(corner / std::tan(0.17453292519943295), 1), WithinAbs(0.940602, 5e-7));
    CHECK_THAT(share(corner / std::tan(0.52359877559829887), 1), WithinAbs(0.562500, 5e-7));
}

// Tolerance: within a step of 0.1 mm no point of the grid can be better by more than rounding.
TEST_CASE("of a lens with every fault, no focus leaves less blur than the evenest",
          "[optics][property]") {
    const std::vector<PointInView> points{{3.0, 0.1}, {3.2, 0.35}, {3.4, 0.0}, {3.1, 0.38}};
    for (const double f_number : {1.4, 2.8}) {
        const Lens lens = fifty(f_number, difficult);
        const auto worst_mm = [&](double focus_m) {
            const auto focused = lens.focused_at(focus_m);
            REQUIRE(focused);
            double worst = 0;
            for (const PointInView& point : points)
                worst =
                    std::max(worst, blur_diameter_mm(*focused, point.axial_m,
                                                     image_height(*focused, point.field_tangent)));
            return worst;
        };
        const double least_mm = worst_mm(evenest_focus_m(lens, points));
        double grid_mm = std::numeric_limits<double>::infinity();
        for (double focus_m = 2.8; focus_m < 3.8; focus_m += 1e-4)
            grid_mm = std::min(grid_mm, worst_mm(focus_m));
        CHECK(least_mm <= grid_mm * (1 + 1e-6));
        const auto span = focus_span(lens, points[1], 0.06);
        REQUIRE(span);
        for (const double focus_m : {span->near_m, span->far_m}) {
            const auto focused = lens.focused_at(focus_m);
            REQUIRE(focused);
            CHECK_THAT(blur_diameter_mm(*focused, points[1].axial_m,
                                        image_height(*focused, points[1].field_tangent)),
                       WithinRel(0.06, 1e-6));
        }
    }
}

// By the profile's blades the widest opening is round, a stop down they show. Tolerance: rounding.
TEST_CASE("blades that are behind the glass wide open show a stop down", "[optics][property]") {
    const LensProfile profile{.widest_f_number = 1.4, .blades = 7, .roundness = 0.4};
    const auto at = [&](double f_number, int blades = 0) {
        return opening_of({.f_number = f_number, .profile = profile, .blades = blades});
    };
    CHECK(at(1.4) == Opening{});
    CHECK(at(2.8).blades == 7);
    CHECK_THAT(at(2.8).roundness, WithinRel(0.4, 1e-12));
    CHECK_THAT(at(1.4 * std::pow(2, 0.25)).roundness, WithinRel(0.7, 1e-12));
    CHECK(at(8, 5) == Opening{.blades = 5});
}

// Tolerance: Simpson's rule, and 20,000 points.
TEST_CASE("rounded blades keep the opening's area and lie between polygon and disc",
          "[optics][property]") {
    for (const int blades : {5, 9})
        for (const double roundness : {0.2, 0.5, 0.9}) {
            double second = 0, fourth = 0;
            const auto points = disc_points(20000);
            for (const Point2& point : points) {
                const Point2 at = polygon_from_disc(point, blades, roundness);
                const double r2 = at.x * at.x + at.y * at.y;
                second += r2;
                fourth += r2 * r2;
            }
            const OpeningShape shape = opening_shape({.blades = blades, .roundness = roundness});
            CHECK_THAT(shape.refocused, WithinRel(fourth / second, 2e-4));
            CHECK(shape.refocused > opening_shape({}).refocused);
            CHECK(shape.refocused < opening_shape({.blades = blades}).refocused);
        }
}
