#include "optics/contrast/mtf.h"

#include "optics/blur/blur_circle.h"
#include "optics/lens/ray_error.h"

#include "base/sequences.h"
#include "base/units.h"

#include "focused.h"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>
#include <complex>
#include <cstddef>
#include <numbers>
#include <utility>

using namespace backrow;
using namespace backrow::optics;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

/// Out of focus by a blur circle of this diameter.
double blurred_at_m(const Lens& lens, double blur_mm) {
    const double dpt = blur_mm / (image_distance_mm(lens) * m_from_mm(aperture_diameter_mm(lens)));
    return 1 / (1 / lens.focus_m() - dpt);
}

/// N that the sensor sees, v/D.
double working_f_number(const Lens& lens) {
    return image_distance_mm(lens) / aperture_diameter_mm(lens);
}

/// Of a lens so near infinity that v/D is the number on its ring.
Lens far_away(double f_number) {
    return focused(50, f_number, 1e7);
}

}  // namespace

// [DIFFRACTION]: (2/π)(acos u − u √(1 − u²)); u = .1, .25, .5, .75, and half of the contrast at
// .403973. Tolerance: half a digit.
TEST_CASE("diffraction leaves of contrast what the overlap of two openings does",
          "[optics][published]") {
    for (const auto& [u, left] :
         {std::pair{0.1, .872889}, {0.25, .685038}, {0.5, .391002}, {0.75, .144294}}) {
        CHECK_THAT(diffraction_mtf(u), WithinAbs(left, 5e-7));
        const Lens lens = far_away(8);
        const double cutoff = 1 / (wavelength_mm * working_f_number(lens));
        CHECK_THAT(cutoff, WithinAbs(227.27, 0.005));
        for (const Lines lines : {Lines::tangential, Lines::sagittal})
            CHECK_THAT(lens_mtf(lens, 1e7, 0, lines, u * cutoff), WithinAbs(left, 2e-4));
    }
    CHECK_THAT(diffraction_mtf(0.403973), WithinAbs(0.5, 1e-6));
    CHECK(diffraction_mtf(0) == 1);
    CHECK(diffraction_mtf(1) == 0);
    CHECK(diffraction_mtf(2) == 0);
}

// The geometrical limit in [HOPKINS1955], from memory: 2 J₁(x)/x, x = π ν D; first zero at ν D =
// 1.219670, half of the contrast at .705085; a disc of 0.030 mm at 10 … 40 cycles a millimetre.
// Tolerance: half a digit.
TEST_CASE("an even disc dims detail as its Bessel function does", "[optics][from-memory]") {
    for (const auto& [cycles, left] :
         {std::pair{0.25, .924850}, {0.5, .721703}, {0.75, .449233}, {1.0, .181192}})
        CHECK_THAT(disc_otf(cycles), WithinAbs(left, 5e-7));
    CHECK_THAT(disc_otf(1.219670), WithinAbs(0, 1e-6));
    CHECK_THAT(disc_otf(0.705085), WithinAbs(0.5, 1e-6));
    for (const auto& [cy_per_mm, left] :
         {std::pair{10, .89300}, {20, .61696}, {30, .28332}, {40, .01330}})
        CHECK_THAT(disc_otf(cy_per_mm * 0.030), WithinAbs(left, 5e-6));
    CHECK(disc_otf(0) == 1);
    CHECK(disc_otf(1.4) < 0);
}

// [HOPKINS1955], from memory: the OTF of defocus with diffraction, its integral worked out apart;
// W₂₀ = b/(8N), 550 nm, b = 0.030 mm. Tolerance: of twelve by twelve strips, 0.0005.
TEST_CASE("out of focus the wave leaves what Hopkins' integral says", "[optics][from-memory]") {
    struct Row {
        double f_number, at_10, at_20, at_30, at_40;
    };
    for (const Row& row :
         {Row{1.4, .88591, .61534, .29832, .04115}, Row{2.8, .87877, .61321, .31207, .06848}}) {
        const Lens lens = far_away(row.f_number);
        const double axial_m = blurred_at_m(lens, 0.030);
        for (const auto& [cy_per_mm, left] :
             {std::pair{10, row.at_10}, {20, row.at_20}, {30, row.at_30}, {40, row.at_40}})
            for (const Lines lines : {Lines::tangential, Lines::sagittal})
                CHECK_THAT(lens_mtf(lens, axial_m, 0, lines, cy_per_mm), WithinAbs(left, 5e-4));
    }
}

// The autocorrelation itself, over a fine net of points on a shifted opening with its rims, with
// the wave summed up from the ray errors along a way to the point. Tolerance: a net of 0.01 counts
// an edge to a hundredth of its length, 0.01.
TEST_CASE("a faulty lens leaves what its wave does, with lines along and across",
          "[optics][property]") {
    const LensProfile profile{.widest_f_number = 1.4,
                              .spherical_dpt = 0.02,
                              .field_curvature_dpt = -0.006,
                              .astigmatism_dpt = 0.02,
                              .coma_dpt = 0.015,
                              .vignetting = 1.0};
    for (const double f_number : {1.4, 2.8})
        for (const double h : {0.0, 0.7, 1.0}) {
            const Lens lens = fifty(f_number, profile);
            const double R_m = m_from_mm(aperture_diameter_mm(lens)) / 2;
            const double rim = f_number / 1.4, off = 0.5 * h * rim;
            const double axial_m = 3.02, e = 1 / 3.0 - 1 / axial_m;
            const auto open = [&](double x, double y) {
                return std::hypot(x, y) <= 1 && std::hypot(std::abs(x) + off, y) <= rim;
            };
            const auto waves = [&](double x, double y) {
                constexpr int pieces = 8;
                double sum = 0;
                for (int i = 0; i < pieces; ++i) {
                    const double t = (i + 0.5) / pieces;
                    const Point2 bent = ray_error_dpt(profile, f_number, {t * x, t * y}, {h, 0});
                    sum += (e * t * x + bent.x) * x + (e * t * y + bent.y) * y;
                }
                return R_m * R_m / m_from_mm(wavelength_mm) * sum / pieces;
            };
            for (const double cy_per_mm : {10.0, 25.0})
                for (const bool along : {true, false}) {
                    const double half = wavelength_mm * cy_per_mm * working_f_number(lens);
                    const double dx = along ? half : 0, dy = along ? 0 : half;
                    std::complex<double> sum = 0;
                    double area = 0;
                    for (double x = -0.995; x < 1; x += 0.01)
                        for (double y = -0.995; y < 1; y += 0.01) {
                            area += open(x, y) ? 1 : 0;
                            if (open(x + dx, y + dy) && open(x - dx, y - dy))
                                sum += std::polar(
                                    1.0, 2 * std::numbers::pi *
                                             (waves(x + dx, y + dy) - waves(x - dx, y - dy)));
                        }
                    INFO("f/" << f_number << " at " << h << ", " << cy_per_mm << ", " << along);
                    CHECK_THAT(lens_mtf(lens, axial_m, h,
                                        along ? Lines::tangential : Lines::sagittal, cy_per_mm),
                               WithinAbs(std::abs(sum) / area, 0.01));
                }
        }
}

// Nothing but the focus of the colours differs: the luminance of three lenses without colour, each
// focused where one of them is. Tolerance: rounding.
TEST_CASE("colours that focus apart soften what is seen wide open, less when stopped down",
          "[optics][property]") {
    const LensProfile green{.widest_f_number = 1.4};
    LensProfile profile = green;
    profile.longitudinal_colour_dpt = {-0.012, 0, -0.010};
    const auto mtf50 = [](const Lens& lens) {
        return mtf50_cy_per_mm(system_mtf(lens, 3, 0, 0.006, 0));
    };
    double kept_before = 0;
    for (const double f_number : {1.4, 2.8, 5.6}) {
        const double kept = mtf50(fifty(f_number, profile)) / mtf50(fifty(f_number, green));
        CHECK(kept > kept_before);
        CHECK(kept < 1);
        kept_before = kept;
        for (const double cy_per_mm : {10.0, 25.0}) {
            double sum = 0;
            const std::array<double, 3> shares{0.2126, 0.7152, 0.0722};
            for (std::size_t i = 0; i < shares.size(); ++i) {
                LensProfile one = green;
                one.focus_offset_dpt = profile.longitudinal_colour_dpt[i];
                sum += shares[i] * lens_mtf(fifty(f_number, one), 3, 0, Lines::sagittal, cy_per_mm);
            }
            CHECK_THAT(seen_mtf(fifty(f_number, profile), 3, 0, Lines::sagittal, cy_per_mm),
                       WithinAbs(sum, 1e-9));
        }
    }
    CHECK(mtf50(fifty(1.4, profile)) < 0.95 * mtf50(fifty(1.4, green)));
    CHECK(kept_before > 0.97);
}

// Sampled by pixels of its own width, a streak is as soft as a pixel is. sin(x)/x at a quarter and
// a half is .900316 and .636620. Tolerance: half a digit.
TEST_CASE("pixels and movement dim detail as even boxes do", "[optics][property]") {
    CHECK_THAT(box_otf(0.25), WithinAbs(.900316, 5e-7));
    CHECK_THAT(box_otf(0.5), WithinAbs(.636620, 5e-7));
    CHECK(box_otf(0) == 1);
    CHECK_THAT(box_otf(1), WithinAbs(0, 1e-15));
    // A Gaussian of half a pixel and the pixel's box, worked out apart: .936270 .661375 .185392.
    for (const auto& [cy_per_px, left] : {std::pair{0.1, .936270}, {0.25, .661375}, {0.5, .185392}})
        CHECK_THAT(std::exp(-2 * std::pow(std::numbers::pi * 0.5 * cy_per_px, 2)) *
                       box_otf(cy_per_px),
                   WithinAbs(left, 5e-7));
}

// A wide blur rules everything else: half of the contrast is left where the disc leaves it,
// .705085/D. Tolerance: diffraction and the pixel take some per cent of so wide a disc's.
TEST_CASE("far out of focus the sharpness of a face is that of its disc", "[optics][property]") {
    const Lens lens = fifty(1.4);
    for (const double blur_mm : {0.06, 0.15}) {
        const MtfCurve curve = system_mtf(lens, blurred_at_m(lens, blur_mm), 0, 0.006, 0);
        CHECK_THAT(mtf50_cy_per_mm(curve), WithinRel(0.705085 / blur_mm, 0.02));
    }
    const double still = mtf50_cy_per_mm(system_mtf(lens, 3, 0, 0.006, 0));
    CHECK(mtf50_cy_per_mm(system_mtf(lens, 3, 0, 0.006, 0.05)) < still);
    CHECK(still < 0.61 / 0.006);
}

// [CPIQ2012] with the constants of an open program, from memory: a disc of 1, 2 and 4 arc minutes,
// and Gaussians of 0.02 and 0.05 degrees. Tolerance: half a digit, and Simpson's rule.
TEST_CASE("acutance weighs detail as the eye does", "[optics][from-memory]") {
    for (const auto& [arcmin, left] : {std::pair{1, .95895}, {2, .85670}, {4, .61557}})
        CHECK_THAT(acutance([&, d = arcmin / 60.0](double v) { return disc_otf(v * d); }),
                   WithinAbs(left, 2e-5));
    for (const auto& [sigma_deg, left] : {std::pair{0.02, .58335}, {0.05, .24307}})
        CHECK_THAT(acutance([sigma = sigma_deg](double v) {
                       return std::exp(-2 * std::pow(std::numbers::pi * sigma * v, 2));
                   }),
                   WithinAbs(left, 2e-5));
    CHECK_THAT(acutance([](double) { return 1.0; }), WithinAbs(1, 1e-12));
}
