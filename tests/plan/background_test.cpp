#include "plan/comparing/background.h"

#include "plan/faces/face_table.h"
#include "posed.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>

using namespace backrow;
using namespace backrow::plan;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

Background background_of(const scene::Scene& scene) {
    return background(scene, scene::camera_view(scene));
}

setting::Backdrop hedge_at(double back_m) {
    return {.kind = setting::BackdropKind::hedge, .back_m = back_m};
}

}  // namespace

// [JACOBSON] section 4, worked out apart: focused at 3 m, 50 mm f/1.2 blurs infinity to 0.70621 mm
// and 4.2 m to 0.20178 mm; 85 mm f/1.4 focused at 4 m blurs infinity to 1.31819 mm.
// Tolerance: half of the last digit written down.
TEST_CASE("a lamp behind the group becomes a disc of known size", "[plan][published]") {
    auto scene = level_scene({with_eye_at("Odile", 3.0)});
    const Background sky = background_of(scene);
    CHECK(std::isinf(sky.axial_m));
    CHECK_THAT(sky.blur_mm, WithinAbs(0.70621, 0.000005));
    CHECK_THAT(sky.percent_of_height, WithinAbs(100 * 0.70621 / 24, 100 * 0.000005 / 24));

    scene.setting.backdrops = {hedge_at(1.2)};
    const Background hedge = background_of(scene);
    CHECK_THAT(hedge.axial_m, WithinRel(4.2, 1e-12));
    CHECK_THAT(hedge.blur_mm, WithinAbs(0.20178, 0.000005));

    scene.setting.backdrops.clear();
    scene.camera.focal_length_mm = 85;
    scene.camera.f_number = 1.4;
    scene.focus = scene::FocusAtDistance{4.0};
    CHECK_THAT(background_of(scene).blur_mm, WithinAbs(1.31819, 0.000005));
}

TEST_CASE("held upright the same disc is a smaller share of the height", "[plan][property]") {
    auto scene = level_scene({with_eye_at("Odile", 3.0)});
    const Background across = background_of(scene);
    scene.camera.orientation = scene::Orientation::portrait;
    const Background upright = background_of(scene);
    CHECK(upright.blur_mm == across.blur_mm);
    CHECK_THAT(upright.percent_of_height, WithinRel(across.percent_of_height * 24 / 36, 1e-12));
}

TEST_CASE("the background is the nearest backdrop behind everybody", "[plan][property]") {
    auto scene = level_scene({with_eye_at("Odile", 3.0), with_eye_at("Bram", 5.0, 0.5)});
    scene.setting.backdrops = {hedge_at(9), hedge_at(1), hedge_at(4)};
    CHECK_THAT(background_of(scene).axial_m, WithinRel(7.0, 1e-12));
    // Somebody at the very back stands before the last of them alone.
    scene.people.push_back(with_eye_at("Sefu", 8.0, -0.5));
    CHECK_THAT(background_of(scene).axial_m, WithinRel(12.0, 1e-12));
    scene.people.push_back(with_eye_at("Yuki", 14.0, -0.5));
    CHECK(std::isinf(background_of(scene).axial_m));
}

// From 1.6 m up the axis falls to the ground 3 m away: it is longer by √(3² + 1.6²)/3, and so is
// its way to the plane of the hedge.
TEST_CASE("a tilted axis meets the backdrop where it points", "[plan][property]") {
    auto scene = level_scene({with_eye_at("Odile", 3.0)});
    scene.camera.level = false;
    scene.camera.aim = scene::FromMark{0, 0, 0};
    scene.setting.backdrops = {hedge_at(6)};
    CHECK_THAT(background_of(scene).axial_m, WithinRel(9 * std::hypot(3, 1.6) / 3, 1e-12));
}

// Along a backdrop the axis never meets it.
TEST_CASE("looking along the backdrop there is only the sky", "[plan][property]") {
    auto scene = level_scene({with_eye_at("Odile", 3.0)});
    scene.camera.aim = scene::FromMark{100, 1.6, -3};
    scene.setting.backdrops = {hedge_at(6)};
    CHECK(std::isinf(background_of(scene).axial_m));
}

// Against the heads as the face table gives them, at 6000 pixels on 36 mm.
TEST_CASE("the disc is told against the heads in the picture", "[plan][property]") {
    auto scene = level_scene({with_eye_at("Odile", 3.0), with_eye_at("Bram", 4.0, 0.6)});
    const auto table = face_table(scene, scene::camera_view(scene));
    const double mean_px = (table.faces[0].face_height_px + table.faces[1].face_height_px) / 2;
    CHECK_THAT(background_of(scene).percent_of_head,
               WithinRel(100 * 0.70621 * 6000 / 36 / mean_px, 1e-5));

    // Somebody who is not in the picture does not count, nor does the shape of the pixels.
    const double both = background_of(scene).percent_of_head;
    scene.people.push_back(with_eye_at("Sefu", 3.0, 5));
    scene.camera.pixels = {6000, 2000};
    CHECK_THAT(background_of(scene).percent_of_head, WithinRel(both, 1e-12));

    scene.people = {with_eye_at("Sefu", 3.0, 5)};
    CHECK(std::isnan(background_of(scene).percent_of_head));
}

// v·D·√((1/3 + 2a/3)² + a²/18) for infinity, a = 0.3 dpt: by hand, v = 50·3000/2950 = 50.8475 mm,
// D = 41.6667 mm: 2.118644 m·mm; the root of (0.333333 + 0.2)² + 0.005 is 0.538000 dpt.
// The product is 1.13983 mm; tolerance: half of its last digit.
TEST_CASE("the lens's own spherical aberration is in the disc", "[plan][property]") {
    auto scene = level_scene({with_eye_at("Odile", 3.0)});
    scene.lens.profile = optics::LensProfile{
        .widest_f_number = 1.2, .spherical_dpt = 0.3, .field_curvature_dpt = 0.5};
    CHECK_THAT(background_of(scene).blur_mm, WithinAbs(1.13983, 0.000005));
}
