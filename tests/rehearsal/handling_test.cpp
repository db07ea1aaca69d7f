#include "rehearsal/handling.h"

#include "../scene/scene_folder.h"
#include "rehearsal/edited_scene.h"

#include <catch2/catch.hpp>

#include <string>
#include <vector>

using namespace backrow;
using namespace backrow::rehearsal;

namespace {

/// Two in a row a little back, one alone; somebody with a name that needs quotation marks.
scene::Scene trio() {
    const scene::SceneFolder folder;
    return *folder.read(R"([camera]
f_number   = 2.0
distance_m = 4.0
[[row]]
back_m    = 0.5
spacing_m = 0.6
people    = ["Ana", "J. B."]
[[person]]
name     = "Ana"
back_m   = 0.1
[[person]]
name     = "Cleo"
across_m = 1.2
)");
}

using Values = std::vector<std::string>;

}  // namespace

TEST_CASE("whoever is led within a row stays in its line unless led freely",
          "[rehearsal][property]") {
    const scene::Scene scene = trio();
    const Change snapped = lead(scene, 0, -0.254, 0.9, true);
    CHECK(snapped.values == Values{"person.Ana.across_m=0.05", "person.Ana.back_m=0.0"});
    CHECK(snapped.what == "Ana 5 cm to the right and 10 cm forward");
    const Change freely = lead(scene, 0, -0.254, 0.9, false);
    CHECK(freely.values == Values{"person.Ana.across_m=0.05", "person.Ana.back_m=0.4"});
    CHECK(lead(scene, 2, 1.2, 0.25, true).values == Values{"person.Cleo.back_m=0.25"});
}

TEST_CASE("leading a carried child leads whoever carries it", "[rehearsal][property]") {
    const scene::SceneFolder folder;
    const scene::Scene scene = *folder.read(R"([[row]]
people = ["Ana"]
[[person]]
name = "Mia"
age_years = 3
carried_by = "Ana"
)");
    CHECK(step(scene, 1, 0.2, 0.1).values ==
          Values{"person.Ana.across_m=0.2", "person.Ana.back_m=0.1"});
    CHECK(turn(scene, 1, 20).values == Values{"person.Ana.turn_deg=20.0"});
}

TEST_CASE("a step is a whole number of centimetres", "[rehearsal][property]") {
    const scene::Scene scene = trio();
    CHECK(step(scene, 1, 0, -0.01).values == Values{"person.\"J. B.\".back_m=-0.01"});
    CHECK(step(scene, 1, 0, -0.01).what == "J. B. 1 cm forward");
    CHECK(step(scene, 0, 0, 0.2).values == Values{"person.Ana.back_m=0.3"});
    CHECK(step(scene, 0, 0.001, 0.002).values.empty());
}

// ISO 517's third stops from memory: 1.8, 2, 2.2, 2.5, 2.8.
TEST_CASE("the aperture ring goes from mark to mark", "[rehearsal][from-memory]") {
    scene::Scene scene = trio();
    CHECK(stop_down(scene, 1).values == Values{"camera.f_number=2.2"});
    CHECK(stop_down(scene, 3).values == Values{"camera.f_number=2.8"});
    CHECK(stop_down(scene, -1).values == Values{"camera.f_number=1.8"});
    CHECK(stop_down(scene, 100).values == Values{"camera.f_number=22.0"});
    scene.camera.f_number = 2.1;
    CHECK(stop_down(scene, 1).values == Values{"camera.f_number=2.2"});
    CHECK(stop_down(scene, -1).values == Values{"camera.f_number=2.0"});
    scene.camera.f_number = 0.95;
    CHECK(stop_down(scene, 1).values == Values{"camera.f_number=1.0"});
}

TEST_CASE("what hands do is kept within what a scene may have", "[rehearsal][property]") {
    const scene::Scene scene = trio();
    CHECK(carry_camera(scene, -3, 0).values == Values{"camera.distance_m=0.05"});
    CHECK(carry_camera(scene, 4.0, 0).values.empty());
    CHECK(carry_camera(scene, 5.004, 0.3).values ==
          Values{"camera.distance_m=5.0", "camera.across_m=0.3"});
    CHECK(zoom(85.4).values == Values{"camera.focal_length_mm=85.0"});
    CHECK(lean(scene, 0, 7).values == Values{"person.Ana.lean_m=0.6"});
    CHECK(turn(scene, 0, 190.4).values == Values{"person.Ana.turn_deg=-170.0"});
}

TEST_CASE("every change of the hands is one that a scene file takes", "[rehearsal][property]") {
    const scene::SceneFolder folder;
    auto edited =
        EditedScene::open(folder.write("duo.toml", "[[row]]\npeople = [\"A. B.\", \"C\"]\n"));
    REQUIRE(edited);
    const auto done = [&](const Change& change) {
        CAPTURE(change.what);
        CHECK(edited->change(change.what, change.values));
    };
    done(step(edited->scene(), 0, 0.02, -0.05));
    done(turn(edited->scene(), 0, 20));
    done(lean(edited->scene(), 0, -0.1));
    done(take_posture(edited->scene(), 0, figures::Posture::seated));
    done(grow(edited->scene(), 0, 1.91));
    done(carry_camera(edited->scene(), 6, 0.2));
    done(raise_camera(1.7));
    done(stop_down(edited->scene(), 2));
    done(zoom(85));
    done(focus_on(edited->scene(), 1));
    done(focus_at(6.1));
    done(focus_evenly());
    const scene::Scene& scene = edited->scene();
    CHECK(scene.people[0].pose.posture == figures::Posture::seated);
    CHECK(scene.people[0].measures.stature_m == 1.91);
    CHECK(scene.people[0].own.back_m == -0.05);
    CHECK(std::holds_alternative<scene::FocusBalanced>(scene.focus));
    CHECK(scene.camera.focal_length_mm == 85);
}
