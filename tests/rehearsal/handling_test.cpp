#include "rehearsal/hands/handling.h"

#include "../scene_file/scene_folder.h"
#include "rehearsal/hands/group_handling.h"
#include "rehearsal/sitting/edited_scene.h"
#include "trio.h"

#include <catch2/catch.hpp>

#include <string>
#include <variant>
#include <vector>

using namespace backrow;
using namespace backrow::rehearsal;

namespace {

constexpr int more_steps_than_any_test_makes = 1000;

void undo_all(EditedScene& edited) {
    for (int i = 0; i < more_steps_than_any_test_makes && edited.can_undo(); ++i)
        edited.undo();
    REQUIRE_FALSE(edited.can_undo());
}

}  // namespace

TEST_CASE("whoever is led within a row stays in its line unless led freely",
          "[rehearsal][property]") {
    const scene::Scene scene = trio();
    const Change snapped = lead(scene, 0, -0.254, 0.9, true);
    CHECK(snapped.values == Values{"person.Ana.across_m=0.05", "person.Ana.back_m=0.0"});
    const Change freely = lead(scene, 0, -0.254, 0.9, false);
    CHECK(freely.values == Values{"person.Ana.across_m=0.05", "person.Ana.back_m=0.4"});
    CHECK(lead(scene, 2, 1.2, 0.25, true).values == Values{"person.Cleo.back_m=0.25"});
}

TEST_CASE("leading a carried child leads whoever carries it", "[rehearsal][property]") {
    const scene_file::SceneFolder folder;
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
    CHECK(step(scene, 1, 0, -0.01).what == "Lead J. B.");
    CHECK(step(scene, 0, 0, 0.2).values == Values{"person.Ana.back_m=0.3"});
    CHECK(step(scene, 0, 0.001, 0.002).values.empty());
}

TEST_CASE("people whose names hold quotation marks, backslashes and any letters can be led",
          "[rehearsal][property]") {
    const scene_file::SceneFolder folder;
    const std::vector<std::string> names{
        R"(Ann "Nan" B.)", R"(Back\slash)", R"(End\)", R"("Quoted")",   "Zoë Ångström",
        "山田 花子",       "O'Neil = x.y",  "0",       " spaced  out ", "#1",
        "[[row]]"};
    std::string text = "[[row]]\npeople = [";
    for (const std::string& name : names) {
        std::string escaped;
        for (const char c : name)
            escaped += (c == '"' || c == '\\') ? std::string{'\\', c} : std::string{c};
        text += '"' + escaped + "\", ";
    }
    text += "\"Last\"]\n[[person]]\nname = \"Last\"\n";
    auto edited = EditedScene::open(folder.write("names.toml", text));
    REQUIRE(edited);
    for (std::size_t i = 0; i < names.size(); ++i) {
        CAPTURE(names[i]);
        REQUIRE(edited->scene().people[i].name == names[i]);
        for (const Change& change :
             {step(edited->scene(), i, 0.02, 0.05), focus_on(edited->scene(), i)})
            REQUIRE(edited->change(change.what, change.values));
        CHECK(edited->scene().people[i].own.back_m == 0.05);
        CHECK(std::get<scene::FocusOnPerson>(edited->scene().focus).name == names[i]);
    }
    undo_all(*edited);
    CHECK(edited->text() == text);
}

// Third stops [ISO517], from memory: 1.8, 2, 2.2, 2.5, 2.8.
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

TEST_CASE("whoever is turned towards a place faces it", "[rehearsal][property]") {
    const scene::Scene scene = trio();
    // Cleo stands at 1.2 m to the right of the mark.
    CHECK(turn_towards(scene, 2, 1.2, -4).values == Values{"person.Cleo.turn_deg=0.0"});
    CHECK(turn_towards(scene, 2, 0.2, -1).values == Values{"person.Cleo.turn_deg=-45.0"});
    CHECK(turn_towards(scene, 2, 5.2, 0).values == Values{"person.Cleo.turn_deg=90.0"});
}

// The marks of shutter and ISO are common practice, no source: 1/200, 1/250, 1/320; 100, 125, 160.
TEST_CASE("shutter and ISO go from mark to mark as well", "[rehearsal][practice]") {
    scene::Scene scene = trio();  // 1/250 s, ISO 100
    CHECK(shorten_shutter(scene, 1).what == "1/320 s");
    CHECK(shorten_shutter(scene, -1).what == "1/200 s");
    CHECK(shorten_shutter(scene, 3).what == "1/500 s");
    CHECK(shorten_shutter(scene, -100).what == "30 s");
    CHECK(raise_iso(scene, 2).values == Values{"camera.iso=160.0"});
    CHECK(raise_iso(scene, -1).values == Values{"camera.iso=80.0"});
    scene.camera.shutter_s = 1.0 / 300;
    CHECK(shorten_shutter(scene, 1).what == "1/320 s");
    CHECK(shorten_shutter(scene, -1).what == "1/250 s");
}

TEST_CASE("what hands do is kept within what a scene may have", "[rehearsal][property]") {
    const scene::Scene scene = trio();
    CHECK(carry_camera(scene, -3, 0).values == Values{"camera.distance_m=0.05"});
    CHECK(carry_camera(scene, 4.0, 0).values.empty());
    CHECK(carry_camera(scene, 5.004, 0.3).values ==
          Values{"camera.across_m=0.3", "camera.distance_m=5.0"});
    CHECK(view_as(optics::wall_viewing).values == Values{"viewing.use=\"wall\""});
    CHECK(view_as(optics::PrintViewing{60, 2}).values ==
          Values{"viewing.print_long_side_cm=60.0", "viewing.viewing_distance_cm=5.0"});
    CHECK(zoom(85.4).values == Values{"camera.focal_length_mm=85.0"});
    CHECK(lean(scene, 0, 7).values == Values{"person.Ana.lean_m=0.6"});
    CHECK(turn(scene, 0, 190.4).values == Values{"person.Ana.turn_deg=-170.0"});
}

TEST_CASE("every change of the hands is one that a scene file takes", "[rehearsal][property]") {
    const scene_file::SceneFolder folder;
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
    done(aim_at(edited->scene(), 0));
    done(aim_at_group());
    const auto framed = frame_group(edited->scene());
    REQUIRE(framed);
    done(*framed);
    done(keep_level(true));
    done(keep_level(false));
    done(orient_camera(scene::Orientation::portrait));
    done(view_as(scene::PixelViewing{}));
    done(view_as(optics::PrintViewing{.long_side_cm = 60, .distance_cm = 80}));
    done(view_as(optics::wall_viewing));
    done(shorten_shutter(edited->scene(), 1));
    done(raise_iso(edited->scene(), 1));
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
    CHECK(std::holds_alternative<scene::AimAtGroup>(scene.camera.aim));
    CHECK(scene.camera.orientation == scene::Orientation::portrait);
    CHECK(scene.camera.iso == 125);
}
