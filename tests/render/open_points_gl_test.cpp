#include "render/faces/probe.h"

#include "test_stage.h"

#include "optics/blur/blur_circle.h"
#include "optics/lens/lens.h"
#include "optics/lens/light_loss.h"
#include "scene_file/reading/lens_profile_file.h"

#include "base/assets.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

using namespace backrow;
using namespace backrow::render;

namespace {

double promised_px(double blur_px) {
    return std::max(0.02 * blur_px, 0.25);
}

/// Where the image of a point at this depth is so high, up to the right.
glm::dvec3 point_at(const scene::CameraView& view, double image_height, double axial_m) {
    const double half_diagonal_mm = std::hypot(view.sensor_width_mm, view.sensor_height_mm) / 2;
    const double out_m = axial_m * image_height * half_diagonal_mm / view.image_distance_mm();
    return {0.8 * out_m, 0.6 * out_m, -axial_m};
}

/// A round patch of the picture about a lamp, by what it is of the light in red, green and blue.
struct LampDisc {
    Image<Rgb> light;

    /// Texels that have more than a share of the green's usual brightness in the disc.
    [[nodiscard]] int area() const {
        std::vector<float> lit;
        for (const Rgb& texel : light.pixels())
            if (texel.g > 0)
                lit.push_back(texel.g);
        std::ranges::nth_element(lit, lit.begin() + static_cast<std::ptrdiff_t>(lit.size() / 2));
        const float half = lit[lit.size() / 2] / 2;
        return static_cast<int>(std::ranges::count_if(
            light.pixels(), [&](const Rgb& texel) { return texel.g > half; }));
    }
    /// Mean square of the distance from its middle, texels.
    [[nodiscard]] double spread(float Rgb::*channel) const {
        double sum = 0, x_sum = 0, y_sum = 0, squares = 0;
        for (int y = 0; y < light.height_px(); ++y)
            for (int x = 0; x < light.width_px(); ++x) {
                const double it = light.at(x, y).*channel;
                sum += it;
                x_sum += it * x;
                y_sum += it * y;
                squares += it * (x * x + y * y);
            }
        return squares / sum - (x_sum * x_sum + y_sum * y_sum) / (sum * sum);
    }
    /// How bright it is in the middle and in a ring near its edge, green.
    [[nodiscard]] double middle_over_rim(double radius_texels) const {
        double middle = 0, rim = 0, in_middle = 0, in_rim = 0;
        for (int y = 0; y < light.height_px(); ++y)
            for (int x = 0; x < light.width_px(); ++x) {
                const double r = std::hypot(x + 0.5 - light.width_px() / 2.0,
                                            y + 0.5 - light.height_px() / 2.0) /
                                 radius_texels;
                if (r < 0.4) {
                    middle += light.at(x, y).g;
                    in_middle += 1;
                } else if (r > 0.75 && r < 0.9) {
                    rim += light.at(x, y).g;
                    in_rim += 1;
                }
            }
        return middle / in_middle / (rim / in_rim);
    }
};

LampDisc lamp_disc(const Bench& bench, const scene::CameraView& view, double image_height,
                   double axial_m, double size_px) {
    const glm::dvec3 at = point_at(view, image_height, axial_m);
    stage::Stage stage;
    stage.parts = {lamp(glm::vec3{at}, 0.00015f * static_cast<float>(axial_m), 100.0f),
                   board(-60, -60, 60, 60, 50, {0, 0, 0})};
    const auto seen = project(view, at);
    const CropRect crop{.left_px = seen.at_px.x - size_px / 2,
                        .top_px = seen.at_px.y - size_px / 2,
                        .width_px = size_px,
                        .height_px = size_px,
                        .width_texels = 150,
                        .height_texels = 150};
    const auto samples = make_lens_samples(64, 16384, optics::opening_of(view.lens));
    return {bench.flat(stage, view, crop, samples).linear};
}

}  // namespace

// Through the vertex shader and the sums of every picture, against the moments of the rays in
// spot.h.
TEST_CASE("every lens that comes with the program blurs as predicted, at every aperture and place",
          "[render][measured]") {
    const Bench bench;
    const auto probe = Probe::make(bench.gl());
    REQUIRE(probe);
    const std::vector<std::string> names = scene_file::own_lenses();
    REQUIRE(names.size() >= 4);
    for (const std::string& name : names) {
        const auto lens = scene_file::read_named_lens(name, "");
        REQUIRE(lens);
        for (const double f_number : {lens->profile.widest_f_number, 2.8, 5.6})
            for (const double image_height : {0.0, 0.6, 0.95})
                for (const double axial_m : {2.75, 2.95, 3.4}) {
                    auto view = straight_camera(f_number, 3.0);
                    view.lens.profile = lens->profile;
                    const auto samples = make_lens_samples(256, 0, optics::opening_of(view.lens));
                    const glm::dvec3 point = point_at(view, image_height, axial_m);
                    const auto measured = probe->measure(bench.gl(), view, samples, point);
                    REQUIRE(measured);
                    const double expected_px =
                        optics::blur_diameter_mm(view.focused(), axial_m, image_height) *
                        view.px_per_mm();
                    INFO(name << " f/" << f_number << " at " << axial_m << " m, height "
                              << image_height);
                    CHECK(measured->value == Approx(expected_px).margin(promised_px(expected_px)));
                }
    }
    CHECK_NOTHROW(require_no_gl_error());
}

// Far out of focus a lamp has the shape of what is left of the opening, and every part of that is
// as bright: the areas are as two discs have them in common. Tolerance: the disc's edge is blurred
// by the lamp's own size, two texels of a radius of 55, twice that of the area.
TEST_CASE("lamps become lemons towards the corners, and whole again on stopping down",
          "[render][measured]") {
    const Bench bench;
    for (const double f_number : {1.4, 2.8}) {
        auto view = straight_camera(f_number, 3.0);
        view.lens.profile = {.widest_f_number = 1.4, .vignetting = 1.0};
        const double disc_px = optics::blur_diameter_mm(view.focused(), 12) * view.px_per_mm();
        const double whole = lamp_disc(bench, view, 0, 12, 1.35 * disc_px).area();
        for (const double image_height : {0.5, 0.9}) {
            const double share = optics::open_share(
                optics::vignetted_opening(view.lens.profile, f_number, image_height));
            CHECK(lamp_disc(bench, view, image_height, 12, 1.35 * disc_px).area() / whole ==
                  Approx(share).margin(0.06 * share));
        }
    }
}

// The mean of the passes with what arrives of it. Tolerance: a grid of 65 nodes is good to a
// thousandth, and the tone is not asked.
TEST_CASE("an even wall is as dark towards the corners as the lens loses light",
          "[render][measured]") {
    const Bench bench;
    auto view = straight_camera(1.4, 3.0);
    view.lens.profile = {.widest_f_number = 1.4, .vignetting = 1.2, .natural_falloff = 0.6};
    stage::Stage stage;
    stage.parts = {board(-9, -9, 9, 9, 4, {0.5f, 0.5f, 0.5f})};
    const auto picture =
        bench.flat(stage, view, whole_frame(view, 120, 80), make_lens_samples(8, 0, {})).linear;
    const auto expected = [&](int x, int y) {
        const double height = std::hypot((x + 0.5 - 60) / 120 * 36, (y + 0.5 - 40) / 80 * 24) /
                              (std::hypot(36, 24) / 2);
        return optics::light_share(view.focused(), height);
    };
    const double whole = picture.at(60, 40).g / expected(60, 40);
    for (const int x : {0, 20, 40, 90, 119})
        CHECK(picture.at(x, 10).g / whole == Approx(expected(x, 10)).epsilon(0.005));
}

// Red that focuses nearer than green is less blurred in front of the plane of focus and more
// behind.
TEST_CASE("fringes of colour change sides through the plane of focus", "[render][property]") {
    const Bench bench;
    auto view = straight_camera(1.4, 3.0);
    view.lens.profile = {.widest_f_number = 1.4, .longitudinal_colour_dpt = {0.02, 0, -0.02}};
    const double size_px = 130;
    const LampDisc before = lamp_disc(bench, view, 0, 2.7, size_px);
    const LampDisc behind = lamp_disc(bench, view, 0, 3.4, size_px);
    CHECK(before.spread(&Rgb::r) < 0.9 * before.spread(&Rgb::g));
    CHECK(before.spread(&Rgb::b) > 1.1 * before.spread(&Rgb::g));
    CHECK(behind.spread(&Rgb::r) > 1.1 * behind.spread(&Rgb::g));
    CHECK(behind.spread(&Rgb::b) < 0.9 * behind.spread(&Rgb::g));
    // As predicted for a lens whose green focuses there.
    view.lens.profile.longitudinal_colour_dpt = {0, 0.02, 0};
    CHECK(std::sqrt(lamp_disc(bench, view, 0, 3.4, size_px).spread(&Rgb::g)) ==
          Approx(std::sqrt(behind.spread(&Rgb::r))).epsilon(0.02));
}

// With the edge of the opening focusing nearer, rays from behind the plane of focus crowd at the
// rim of the disc, those from in front of it in the middle; the other sign turns it about.
TEST_CASE("spherical aberration makes discs bright-edged on one side and soft on the other",
          "[render][property]") {
    const Bench bench;
    const auto middle_over_rim = [&](double spherical_dpt, double axial_m) {
        auto view = straight_camera(1.4, 3.0);
        view.lens.profile = {.widest_f_number = 1.4, .spherical_dpt = spherical_dpt};
        const double e = 1 / 3.0 - 1 / axial_m;
        const double radius_px = view.image_distance_mm() * 0.05 / 1.4 / 2 *
                                 std::abs(e + spherical_dpt) * view.px_per_mm();
        const double size_px = 3 * radius_px;
        return lamp_disc(bench, view, 0, axial_m, size_px)
            .middle_over_rim(radius_px / size_px * 150);
    };
    CHECK(middle_over_rim(0.02, 4.5) > 1.2);
    CHECK(middle_over_rim(0.02, 2.3) < 0.95);
    CHECK(middle_over_rim(-0.02, 4.5) < 0.95);
    CHECK(middle_over_rim(-0.02, 2.3) > 1.2);
    CHECK(middle_over_rim(0, 4.5) == Approx(1).margin(0.05));
}
