#include "plan/comparing/cautions.h"

#include "posed.h"

#include <catch2/catch.hpp>
#include <glm/trigonometric.hpp>

#include <cmath>
#include <string>
#include <vector>

using namespace backrow;
using namespace backrow::plan;

namespace {

/// Ana on the ground, Ben on a riser, Cleo with Mia on her shoulders.
scene::Scene family() {
    scene::Scene scene =
        level_scene({somebody("Ana", {}), somebody("Ben", {.across_m = 0.6, .up_m = 0.3}),
                     somebody("Cleo", {.across_m = 1.2}), somebody("Mia", {.across_m = 1.2})});
    scene.people[3].carrier = 2;
    return scene;
}

std::vector<Caution> after_moving(std::vector<std::size_t> who, double back_m) {
    const scene::Scene now = family();
    scene::Scene then = now;
    for (const std::size_t i : who)
        then.people[i].place.back_m += back_m;
    return cautions(now, then);
}

}  // namespace

TEST_CASE("who stays where they are minds nothing", "[plan][property]") {
    scene::Scene then = family();
    then.camera.f_number = 8;
    CHECK(cautions(family(), then).empty());
    then.camera.lens_to_mark_m -= 1;
    CHECK(cautions(family(), then).empty());
}

TEST_CASE("the photographer who steps back looks behind", "[plan][property]") {
    scene::Scene then = family();
    then.camera.lens_to_mark_m += 0.5;
    CHECK(cautions(family(), then) == std::vector{Caution::photographer_steps_back});
}

TEST_CASE("whoever is asked to step back looks behind, and forward nobody needs to",
          "[plan][property]") {
    CHECK(after_moving({0}, 0.1) == std::vector{Caution::somebody_steps_back});
    CHECK(after_moving({0}, -0.1).empty());
}

TEST_CASE("on a riser every move minds the edge", "[plan][property]") {
    CHECK(after_moving({1}, -0.1) == std::vector{Caution::moves_on_something});
    CHECK(after_moving({1}, 0.1) ==
          std::vector{Caution::somebody_steps_back, Caution::moves_on_something});
}

TEST_CASE("with a child on the shoulders nobody moves before it is set down", "[plan][property]") {
    CHECK(after_moving({2, 3}, -0.1) == std::vector{Caution::moves_with_a_child});
}

TEST_CASE("every caution is a sentence that defers to the rules of the place", "[plan][property]") {
    for (const Caution caution : {Caution::photographer_steps_back, Caution::somebody_steps_back,
                                  Caution::moves_on_something, Caution::moves_with_a_child})
        CHECK(to_words(caution).ends_with("the rules of the place decide."));
    CHECK(to_words(Caution::photographer_steps_back).find("look behind you") != std::string::npos);
}

namespace {

std::vector<Caution> called_for(const scene::Scene& scene) {
    const auto view = camera_view(scene);
    return shoot_cautions(scene, sun_checks(scene, view, face_table(scene, view)));
}

}  // namespace

// Which things are minded at a shoot is common practice, no source.
TEST_CASE("at the shoot nothing is minded that the scene does not call for", "[plan][practice]") {
    scene::Scene scene = level_scene({somebody("Ana", {})});
    CHECK(called_for(scene).empty());

    scene::Scene raised = scene;
    raised.people[0].place.up_m = 0.3;
    CHECK(called_for(raised) == std::vector{Caution::people_raised});

    scene::Scene from_a_ladder = scene;
    from_a_ladder.camera.height_m = highest_held_m;
    CHECK(called_for(from_a_ladder).empty());
    from_a_ladder.camera.height_m += 0.01;
    CHECK(called_for(from_a_ladder) == std::vector{Caution::camera_raised});

    for (const auto& [kind, caution] :
         {std::pair{setting::BackdropKind::water, Caution::water_near},
          {setting::BackdropKind::beach, Caution::water_near},
          {setting::BackdropKind::street, Caution::traffic_near}}) {
        scene::Scene place = scene;
        place.setting.backdrops.push_back({.kind = kind});
        CHECK(called_for(place) == std::vector{caution});
    }

    scene::Scene sunset = scene;
    sunset.light.scene_ev100 = 14;
    sunset.light.sun_azimuth_deg = 180;
    sunset.light.sun_elevation_deg = 5;
    CHECK(called_for(sunset) == std::vector{Caution::sun_in_picture});
    // Two degrees outside the frame, and above it.
    const scene::CameraView view = camera_view(sunset);
    const double half_width_deg =
        glm::degrees(std::atan(view.sensor_width_mm / 2 / view.image_distance_mm()));
    scene::Scene beside = sunset;
    beside.light.sun_azimuth_deg = static_cast<float>(180 + half_width_deg + 2);
    CHECK(called_for(beside).empty());
    beside.light.sun_elevation_deg = 60;
    CHECK(called_for(beside).empty());

    scene::Scene with_a_child =
        level_scene({somebody("Ana", {}), somebody("Ben", {.across_m = 0.6})});
    CHECK(called_for(with_a_child).empty());
    with_a_child.people[1].carrier = 0;
    CHECK(called_for(with_a_child) == std::vector{Caution::child_carried});
}

// Nobody has a place of their own who is carried: the carrier's feet are raised, or nobody's.
TEST_CASE("who is carried is minded, and stands on nothing", "[plan][property]") {
    const scene::Scene scene = family();
    CHECK(called_for(scene) == std::vector{Caution::people_raised, Caution::child_carried});
}
