#pragma once

// A scene for the tests of the window's pictures, and what `preview` makes of a scene.

#include "../scene/fifty.h"

#include "figures/measures/body_measures.h"
#include "plan/faces/metering.h"
#include "render/studio/open_studio.h"
#include "scene/camera_view.h"
#include "stage/stage.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <limits>
#include <memory>

namespace backrow::window {

/// Odile, and Bram half a metre beside and behind her.
inline scene::Scene two_people(double bram_back_m = 0.8) {
    scene::Scene scene;
    scene.camera = scene::fifty_wide_open();
    for (const auto& [name, place] : {std::pair{"Odile", scene::FromMark{}},
                                      std::pair{"Bram", scene::FromMark{0.5, 0, bram_back_m}}}) {
        scene::Person person;
        person.name = name;
        person.place = place;
        person.measures = figures::body_measures(1.70, std::nullopt);
        scene.people.push_back(person);
    }
    scene.camera.lens_to_mark_m = 4.5;
    scene.camera.f_number = 4.0;
    scene.focus = scene::FocusOnPerson{"Odile"};
    return scene;
}

/// As `preview` makes it, or would were it content with so much.
inline Image<Rgb8> previewed(const scene::Scene& scene, const render::CropRect& crop,
                             double enough_db = std::numeric_limits<double>::infinity()) {
    const auto view = camera_view(scene);
    const auto stage = stage::build_stage(scene, view);
    REQUIRE(stage);
    const auto carry_on = [](double) { return true; };
    const auto open =
        render::OpenStudio::make(*stage, render::Look::lit, view.position_m, carry_on);
    REQUIRE(open);
    auto samples = open->samples_for(view, crop, render::Quality::fine);
    samples.enough_db = std::min(samples.enough_db, enough_db);
    const double stops = plan::stops_shown(scene.camera, plan::metering(scene, view));
    auto picture =
        make_picture(open->studio(stops), view, crop, samples, render::KeepLinear::no, carry_on);
    REQUIRE(picture);
    return std::move(picture->developed);
}

}  // namespace backrow::window
