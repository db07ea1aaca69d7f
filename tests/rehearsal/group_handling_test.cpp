#include "rehearsal/hands/group_handling.h"

#include "../scene_file/scene_folder.h"
#include "demo_scenes.h"
#include "rehearsal/sitting/edited_scene.h"
#include "trio.h"

#include "plan/faces/face_table.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <string>
#include <utility>
#include <variant>
#include <vector>

using namespace backrow;
using namespace backrow::rehearsal;

TEST_CASE("a whole row goes back by its own key, whoever stands out of its line with it",
          "[rehearsal][property]") {
    const scene::Scene scene = trio();
    const std::vector<std::size_t> row{0, 1}, all{0, 1, 2}, some{1, 2};
    const Change back = step(scene, row, 0, 0.1);
    CHECK(back.values == Values{"row.0.back_m=0.6"});
    CHECK(back.what == "Lead Ana and J. B.");
    CHECK(step(scene, row, 0.2, -0.1).values ==
          Values{"row.0.back_m=0.4", "person.Ana.across_m=0.2", "person.\"J. B.\".across_m=0.2"});
    CHECK(step(scene, all, 0, 0.1).values == Values{"row.0.back_m=0.6", "person.Cleo.back_m=0.1"});
    CHECK(step(scene, some, 0, 0.1).values ==
          Values{"person.\"J. B.\".back_m=0.1", "person.Cleo.back_m=0.1"});
    CHECK(step(scene, all, 0.001, -0.004).values.empty());
}

// The crew's line bends 45 cm towards the camera; its story says that straightening it does.
// Tolerance: whole centimetres along the ground, half of one along the axis.
TEST_CASE("a line that is lined up lies in the plane of focus, wherever the camera looks from",
          "[rehearsal][property]") {
    for (const char* height : {"camera.height_m=1.5", "camera.height_m=5.0"}) {
        auto edited = EditedScene::open(demo_scene_file("crew"));
        REQUIRE(edited);
        REQUIRE(edited->change("", {height}));
        const std::vector<std::size_t> everybody{0, 1, 2, 3, 4};
        const Change change = line_up(edited->scene(), camera_view(edited->scene()), everybody);
        REQUIRE(edited->change(change.what, change.values));
        const scene::CameraView view = camera_view(edited->scene());
        for (const plan::Face& face : plan::face_table(edited->scene(), view).faces)
            CHECK(std::abs(face.offset_mm) <= 5.001);
        CHECK(line_up(edited->scene(), view, everybody).values.empty());
    }
}

TEST_CASE("two people change places, and the steps of the places stay where they are",
          "[rehearsal][property]") {
    const scene_file::SceneFolder folder;
    const std::string text = R"([focus]
on = "Ana"
[[row]]
people = ["Ana", "Ben"]
[[row]]
back_m = 0.7
people = ["Cleo", "Dan", "Eve"]
[[person]]
name   = "Dan"
back_m = 0.1
[[person]]
name     = "Finn"
across_m = 1.5
up_m     = 0.2
)";
    const auto edited = [&](std::size_t a, std::size_t b) {
        auto now = EditedScene::open(folder.write("rows.toml", text));
        REQUIRE(now);
        const std::vector<scene::Person> before = now->scene().people;
        const Change change = change_places(now->scene(), a, b);
        CAPTURE(change.what);
        REQUIRE(now->change(change.what, change.values));
        const auto stands_at = [&](const std::string& name, const scene::FromMark& place) {
            const scene::Person* person = person_named(now->scene(), name);
            REQUIRE(person != nullptr);
            CHECK(person->place.across_m == place.across_m);
            CHECK(person->place.back_m == place.back_m);
            CHECK(person->place.up_m == place.up_m);
        };
        for (std::size_t i = 0; i < before.size(); ++i)
            stands_at(before[i].name, before[i == a ? b : i == b ? a : i].place);
        return std::move(*now);
    };
    edited(0, 1);
    edited(0, 2);
    const EditedScene swapped = edited(0, 3);
    CHECK(std::get<scene::FocusOnPerson>(swapped.scene().focus).name == "Ana");
    edited(3, 4);
    edited(1, 5);
    edited(5, 2);
    CHECK(change_places(swapped.scene(), 0, 1).what == "Dan and Ben change places");
}

TEST_CASE("a row closes up and is raised by its own keys", "[rehearsal][property]") {
    const scene::Scene scene = trio();
    CHECK(row_spacing_m(scene, 0) == 0.6);
    CHECK(space_row(0, 0.504).values == Values{"row.0.spacing_m=0.5"});
    CHECK(space_row(0, -1).values == Values{"row.0.spacing_m=0.05"});
    CHECK(raise_row(0, 0.301).values == Values{"row.0.up_m=0.3"});
    CHECK(row_spacing_m(demo_scene("reunion"), 3) == Approx(0.58));
}

TEST_CASE("who goes back only keeps a place across that was written to the millimetre",
          "[rehearsal][property]") {
    const scene_file::SceneFolder folder;
    const auto scene = folder.read("[[person]]\nname = \"Ana\"\nacross_m = 0.125\n"
                                   "[[person]]\nname = \"Ben\"\nback_m = 0.5004\n");
    REQUIRE(scene);
    const std::vector<std::size_t> both{0, 1};
    CHECK(step(*scene, both, 0, 0.1).values ==
          Values{"person.Ana.back_m=0.1", "person.Ben.back_m=0.6"});
    CHECK(step(*scene, both, 0.1, 0).values ==
          Values{"person.Ana.across_m=0.23", "person.Ben.across_m=0.1"});
}
