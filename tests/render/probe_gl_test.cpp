#include "render/faces/probe.h"

#include "test_stage.h"

#include "optics/blur/blur_circle.h"
#include "optics/lens/lens.h"
#include "optics/lens/lens_profile.h"

#include <cmath>
#include <numbers>

using namespace backrow;
using namespace backrow::render;

namespace {

// The agreement promised to users: 2 % or a quarter of a camera pixel, whichever is larger.
double promised_px(double blur_px) {
    return std::max(0.02 * blur_px, 0.25);
}

}  // namespace

TEST_CASE(
    "the blur measured in pixels is that of the thin-lens formula, before and behind the focus, "
    "on the axis and in the corner, at every aperture",
    "[render][measured]") {
    const Bench bench;
    const auto probe = Probe::make(bench.gl());
    REQUIRE(probe);
    for (const double f_number : {1.2, 2.0, 5.6})
        for (const double depth_m : {1.0, 2.4, 2.9, 2.99, 3.0, 3.01, 3.1, 3.6, 6.0, 40.0})
            for (const glm::dvec2 lateral : {glm::dvec2{0, 0}, glm::dvec2{0.25, -0.15}}) {
                const auto view = straight_camera(f_number, 3.0);
                const auto samples = make_lens_samples(256, 0, {});
                const glm::dvec3 point{lateral.x * depth_m, lateral.y * depth_m, -depth_m};
                const auto measured = probe->measure(bench.gl(), view, samples, point);
                REQUIRE(measured);
                const double expected_px =
                    optics::blur_diameter_mm(view.focused(), depth_m) * view.px_per_mm();
                INFO("f/" << f_number << " at " << depth_m << " m, lateral " << lateral.x);
                CHECK(measured->value == Approx(expected_px).margin(promised_px(expected_px)));
            }
    CHECK_NOTHROW(require_no_gl_error());
}

TEST_CASE("the measured blur hardly depends on how many points of the lens are used",
          "[render][property]") {
    const Bench bench;
    const auto probe = Probe::make(bench.gl());
    REQUIRE(probe);
    const auto view = straight_camera(1.4, 3.0);
    const double expected_px = optics::blur_diameter_mm(view.focused(), 3.5) * view.px_per_mm();
    for (const int passes : {16, 64, 333, 1024}) {
        const auto measured =
            probe->measure(bench.gl(), view, make_lens_samples(passes, 0, {}), {0.2, 0.1, -3.5});
        REQUIRE(measured);
        CHECK(measured->value == Approx(expected_px).epsilon(0.02));
    }
}

// Spherical aberration and field curvature enter through the same vertex shader; the closed form is
// the second moment of the ray pattern (blur_circle.h), checked by integration in the optics tests.
TEST_CASE("a lens with errors measures as its rays predict", "[render][measured]") {
    const Bench bench;
    const auto probe = Probe::make(bench.gl());
    REQUIRE(probe);
    auto view = straight_camera(2.0, 3.0);
    view.lens.profile = {
        .widest_f_number = 1.4, .spherical_dpt = 0.05, .field_curvature_dpt = -0.04};
    for (const int blades : {0, 5, 9})
        for (const glm::dvec3 point : {glm::dvec3{0, 0, -3.0}, glm::dvec3{0, 0, -3.4},
                                       glm::dvec3{0.8, 0.5, -3.0}, glm::dvec3{0.7, -0.4, -2.7}}) {
            view.lens.blades = blades;
            const auto measured = probe->measure(
                bench.gl(), view, make_lens_samples(512, 0, {.blades = blades}), point);
            REQUIRE(measured);
            const auto seen = project(view, point);
            const double expected_px =
                optics::blur_diameter_mm(view.focused(), seen.axial_m, seen.image_height) *
                view.px_per_mm();
            INFO(blades << " blades at " << seen.axial_m << " m");
            CHECK(measured->value == Approx(expected_px).margin(promised_px(expected_px)));
        }
}

// The field stops curving at √2 of the corner's height: once before and twice beyond.
TEST_CASE("whoever stands outside the picture is blurred as predicted too", "[render][measured]") {
    const Bench bench;
    const auto probe = Probe::make(bench.gl());
    REQUIRE(probe);
    auto view = straight_camera(2.0, 3.0);
    view.lens.profile = {.widest_f_number = 2.0, .field_curvature_dpt = 0.05};
    for (const double image_height : {1.2, 1.5, 2.0})
        for (const double axial_m : {2.7, 3.4}) {
            const double half_diagonal_mm =
                std::hypot(view.sensor_width_mm, view.sensor_height_mm) / 2;
            const double out_m =
                axial_m * image_height * half_diagonal_mm / view.image_distance_mm();
            const glm::dvec3 point{0.8 * out_m, 0.6 * out_m, -axial_m};
            REQUIRE(project(view, point).image_height == Approx(image_height));
            const auto measured =
                probe->measure(bench.gl(), view, make_lens_samples(512, 0, {}), point);
            REQUIRE(measured);
            const double expected_px =
                optics::blur_diameter_mm(view.focused(), axial_m, image_height) * view.px_per_mm();
            INFO("at " << axial_m << " m, image height " << image_height);
            CHECK(measured->value == Approx(expected_px).margin(promised_px(expected_px)));
        }
}

TEST_CASE("nobody behind the lens is measured", "[render][property]") {
    const Bench bench;
    const auto probe = Probe::make(bench.gl());
    REQUIRE(probe);
    CHECK_FALSE(probe->measure(bench.gl(), straight_camera(2.0, 3.0), make_lens_samples(16, 0, {}),
                               {0, 0, 1.0}));
}
