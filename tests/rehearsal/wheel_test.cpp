#include "rehearsal/hands/wheel.h"

#include "trio.h"

#include <catch2/catch.hpp>

using namespace backrow;
using namespace backrow::rehearsal;

TEST_CASE("the wheel over the picture turns the rings and carries the camera",
          "[rehearsal][property]") {
    const scene::Scene scene = trio();  // f/2 from 4 m
    scene::CameraView view = camera_view(scene);
    view.lens.focus_m = 4.5;
    const auto values = [&](const Notch& notch) {
        return turn_wheel_over_picture(scene, view, notch).values;
    };
    CHECK(values({}) == Values{"camera.f_number=2.2"});
    CHECK(values({.is_forward = false}) == Values{"camera.f_number=1.8"});
    CHECK(values({.with_shift = true}) == Values{"camera.distance_m=3.9"});
    CHECK(values({.is_forward = false, .with_shift = true}) == Values{"camera.distance_m=4.1"});
    CHECK(values({.is_forward = false, .with_alt = true}) == Values{"focus.distance_m=4.48"});
    const double mm = scene.camera.focal_length_mm;
    CHECK(values({.with_ctrl = true}) == zoom(mm + 1).values);
}

TEST_CASE("the wheel over somebody turns with Ctrl, leans with Shift, and alone is for the drawing",
          "[rehearsal][property]") {
    const scene::Scene scene = trio();
    const auto values = [&](const Notch& notch) {
        return turn_wheel_over_person(scene, 2, notch).values;
    };
    CHECK(values({.with_ctrl = true}) == Values{"person.Cleo.turn_deg=5.0"});
    CHECK(values({.is_forward = false, .with_ctrl = true}) == Values{"person.Cleo.turn_deg=-5.0"});
    CHECK(values({.is_forward = false, .with_shift = true}) == Values{"person.Cleo.lean_m=-0.01"});
    CHECK(values({}).empty());
}
