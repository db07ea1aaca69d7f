#pragma once

// People and a camera whose axial distances can be reckoned by hand.

#include "../scene/fifty.h"

#include "scene/camera_view.h"
#include "scene/scene.h"

#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace backrow::plan {

/// A level camera at 1.6 m, so that the axis lies along the ground and axial distances are counted
/// straight back; 50 mm f/1.2, lens 3 m before the mark, focused at 3 m. Judged by its blur alone,
/// as closed forms have it; diffraction_test.cpp asks what diffraction does.
inline scene::Scene level_scene(std::vector<scene::Person> people) {
    scene::Scene scene;
    scene.camera = scene::fifty_wide_open();
    scene.camera.lens_to_mark_m = 3.0;
    scene.camera.height_m = 1.6;
    scene.camera.aim = scene::FromMark{0, 1.6, 0};
    scene.camera.level = true;
    scene.focus = scene::FocusAtDistance{3.0};
    scene.judge = scene::Judge::blur;
    scene.people = std::move(people);
    return scene;
}

/// The same with 3600 pixels on 36 mm, looked at one by one: 3 px, and so 0.030 mm, are fine.
inline scene::Scene scene_of_pixels(std::vector<scene::Person> people) {
    scene::Scene scene = level_scene(std::move(people));
    scene.camera.pixels = {3600, 2400};
    scene.viewing = scene::PixelViewing{};
    return scene;
}

/// Somebody standing there and facing the camera side.
inline scene::Person somebody(std::string name, scene::FromMark place, double stature_m = 1.70) {
    scene::Person person;
    person.name = std::move(name);
    person.place = place;
    person.measures = figures::body_measures(stature_m, std::nullopt);
    return person;
}

/// Somebody whose nearer eye is this far from the lens of level_scene(), along the axis.
inline scene::Person with_eye_at(std::string name, double axial_m, double across_m = 0) {
    scene::Person person = somebody(std::move(name), {.across_m = across_m});
    const auto view = scene::camera_view(level_scene({person}));
    person.place.back_m += axial_m - scene::axial_m(view, scene::nearer_eye_m(view, person));
    return person;
}

}  // namespace backrow::plan
