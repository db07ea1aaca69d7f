#include "optics/contrast/diffraction.h"

#include "optics/blur/viewing.h"
#include "optics/contrast/mtf.h"

#include "base/units.h"

#include "focused.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace backrow;
using namespace backrow::optics;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

/// Half of the contrast of the wave itself, cycles a millimetre.
double wave_mtf50(const Lens& lens, double axial_m) {
    double more = 0;
    double less = 1 / wavelength_mm;
    for (int halving = 0; halving < 40; ++halving) {
        const double middle = (more + less) / 2;
        (lens_mtf(lens, axial_m, 0, Lines::tangential, middle) > 0.5 ? more : less) = middle;
    }
    return more;
}

/// Out of focus by a blur circle of this diameter.
double blurred_at_m(const Lens& lens, double blur_mm) {
    const double dpt = blur_mm / (image_distance_mm(lens) * m_from_mm(aperture_diameter_mm(lens)));
    return 1 / (1 / lens.focus_m() - dpt);
}

constexpr double mtf50_of_disc = 0.705085;

}  // namespace

// [DIFFRACTION]: half of the contrast at .403973 of the cutoff 1/(λN), so of a disc D = .705085
// λN/.403973: 550 nm and f/16 make 15.36 µm. Tolerance: the last digit written down.
TEST_CASE("diffraction at f/16 counts as a disc of 15.36 µm", "[optics][published]") {
    const Lens far_away = focused(50, 16, 1e7);
    CHECK_THAT(diffraction_disc_mm(far_away), WithinAbs(0.01536, 5e-6));
    // What an album allows of "crisp": 1 arcmin of 30 cm from 40 cm off, 36 mm of sensor.
    const double crisp_mm = blur_mm_from_view_arcmin(crisp_limit_arcmin, 36, album_viewing);
    CHECK(diffraction_disc_mm(far_away) > crisp_mm);
    CHECK(diffraction_disc_mm(focused(50, 14, 1e7)) < crisp_mm);
}

TEST_CASE("the disc that stands for diffraction has the MTF50 of the wave", "[optics][property]") {
    for (const double f_number : {1.4, 4.0, 16.0})
        for (const double focus_m : {0.3, 3.0}) {
            const Lens lens = focused(50, f_number, focus_m);
            CHECK_THAT(mtf50_of_disc / diffraction_disc_mm(lens),
                       WithinRel(wave_mtf50(lens, focus_m), 0.001));
        }
}

// The wave of mtf.h, which is held to Hopkins, is the truth; the tolerance is what diffraction.h
// says of the rule. Squares, the common practice, would be off by 12 % where both are alike.
TEST_CASE("added as cubes diffraction and defocus have the MTF50 of the wave within 3 %",
          "[optics][property]") {
    double squares_off = 0;
    for (const double f_number : {2.0, 8.0, 16.0}) {
        const Lens lens = focused(50, f_number, 3);
        const double diffraction_mm = diffraction_disc_mm(lens);
        for (const double discs : {0.0, 0.2, 0.4, 0.6, 0.8, 1.0, 1.25, 1.5, 2.0, 2.5, 3.0, 4.0}) {
            const double blur_mm = discs * diffraction_mm;
            const double wave_mm = mtf50_of_disc / wave_mtf50(lens, blurred_at_m(lens, blur_mm));
            CAPTURE(f_number, discs, wave_mm);
            CHECK_THAT(with_diffraction_mm(blur_mm, diffraction_mm), WithinRel(wave_mm, 0.03));
            squares_off = std::max(squares_off, std::hypot(blur_mm, diffraction_mm) / wave_mm - 1);
        }
    }
    CHECK_THAT(squares_off, WithinAbs(0.13, 0.015));
}

TEST_CASE("diffraction and the room beside it make up the limit", "[optics][property]") {
    const auto room_mm = room_beside_diffraction_mm(0.014, 0.010);
    REQUIRE(room_mm);
    CHECK_THAT(with_diffraction_mm(*room_mm, 0.010), WithinRel(0.014, 1e-12));
    CHECK(room_beside_diffraction_mm(0.014, 0) == 0.014);
    CHECK(room_beside_diffraction_mm(0.014, 0.014) == 0.0);
    CHECK(std::isinf(with_diffraction_mm(INFINITY, 0.01)));
    CHECK(with_diffraction_mm(0, 0) == 0);
    CHECK_FALSE(room_beside_diffraction_mm(0.014, 0.015));
    CHECK(std::isinf(room_beside_diffraction_mm(INFINITY, 0.01).value_or(0)));
}
