#include "render/faces/face_meter.h"

#include "../scene/fifty.h"

#include "test_stage.h"

#include "figures/measures/body_measures.h"
#include "optics/blur/blur_circle.h"

using namespace backrow;
using namespace backrow::render;

namespace {

// Odile at the mark in focus, Bram 80 cm right behind her.
scene::Scene two_in_line() {
    scene::Scene scene;
    scene.camera = scene::fifty_wide_open();
    for (const auto& [name, back_m] : {std::pair{"Odile", 0.0}, std::pair{"Bram", 0.8}}) {
        scene::Person person;
        person.name = name;
        person.place.back_m = back_m;
        person.measures = figures::body_measures(1.70, std::nullopt);
        scene.people.push_back(person);
    }
    scene.camera.lens_to_mark_m = 4.0;
    scene.camera.height_m = scene.people[0].measures.eye_height_m;
    scene.camera.aim = scene::AimAtPerson{"Odile"};
    scene.focus = scene::FocusOnPerson{"Odile"};
    return scene;
}

}  // namespace

// Tolerance: the contract's, 2 % or a quarter of a pixel.
TEST_CASE("of each person it is the nearer eye that is measured", "[render][measured]") {
    const Bench bench;
    scene::Scene scene = two_in_line();
    scene.people[1].pose.turn_deg = 40;  // so that his eyes are far from equally near
    const auto view = camera_view(scene);
    const auto meter = FaceMeter::make(bench.gl());
    REQUIRE(meter);
    const auto samples = make_lens_samples(256, 0, {});
    for (const scene::Person& person : scene.people) {
        const auto measured_px = meter->blur_px(bench.gl(), view, samples, person);
        REQUIRE(measured_px);
        const double eye_m = axial_m(view, nearer_eye_m(view, person));
        const double expected_px =
            optics::blur_diameter_mm(view.focused(), eye_m) * view.px_per_mm();
        CHECK(*measured_px == Approx(expected_px).margin(std::max(0.25, 0.02 * expected_px)));
    }
    for (const int few : {1, 2})  // points that span no area of the lens
        CHECK_FALSE(
            meter->blur_px(bench.gl(), view, make_lens_samples(few, 0, {}), scene.people[1]));
    CHECK(meter->blur_px(bench.gl(), view, make_lens_samples(3, 0, {}), scene.people[1]));
    scene.people[1].place.back_m = -6;  // behind the lens
    CHECK_FALSE(meter->blur_px(bench.gl(), view, samples, scene.people[1]));
}

TEST_CASE("whoever stands right behind somebody is hidden, and whoever stands before is not",
          "[render][property]") {
    const Bench bench;
    const scene::Scene scene = two_in_line();
    const auto view = camera_view(scene);
    const auto stage = stage::build_stage(scene, view);
    REQUIRE(stage);
    StageOnGpu on_gpu{bench.gl(), *stage};
    const auto meter = FaceMeter::make(bench.gl());
    REQUIRE(meter);
    CHECK(meter->measured_visible_fraction(bench.gl(), on_gpu, view, scene, 0) == 1.0);
    CHECK(meter->measured_visible_fraction(bench.gl(), on_gpu, view, scene, 1) < 0.2);
    CHECK_NOTHROW(require_no_gl_error());
}
