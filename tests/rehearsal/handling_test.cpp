#include "rehearsal/handling.h"

#include "../scene/scene_folder.h"
#include "demo_scenes.h"
#include "rehearsal/edited_scene.h"

#include <catch2/catch.hpp>

#include <random>
#include <string>
#include <variant>
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

TEST_CASE("a step is a whole number of centimetres", "[rehearsal][property]") {
    const scene::Scene scene = trio();
    CHECK(step(scene, 1, 0, -0.01).values == Values{"person.\"J. B.\".back_m=-0.01"});
    CHECK(step(scene, 1, 0, -0.01).what == "J. B. 1 cm forward");
    CHECK(step(scene, 0, 0, 0.2).values == Values{"person.Ana.back_m=0.3"});
    CHECK(step(scene, 0, 0.001, 0.002).values.empty());
}

TEST_CASE("a whole row goes back by its own key, whoever stands out of its line with it",
          "[rehearsal][property]") {
    const scene::Scene scene = trio();
    const std::vector<std::size_t> row{0, 1}, all{0, 1, 2}, some{1, 2};
    const Change back = step(scene, row, 0, 0.1);
    CHECK(back.values == Values{"row.0.back_m=0.6"});
    CHECK(back.what == "Ana and J. B. 10 cm back");
    CHECK(step(scene, row, 0.2, -0.1).values ==
          Values{"row.0.back_m=0.4", "person.Ana.across_m=0.2", "person.\"J. B.\".across_m=0.2"});
    CHECK(step(scene, row, 0.2, -0.1).what == "Ana and J. B. 20 cm to the right and 10 cm forward");
    CHECK(step(scene, all, 0, 0.1).values == Values{"row.0.back_m=0.6", "person.Cleo.back_m=0.1"});
    CHECK(step(scene, some, 0, 0.1).values ==
          Values{"person.\"J. B.\".back_m=0.1", "person.Cleo.back_m=0.1"});
    CHECK(step(scene, all, 0.001, -0.004).values.empty());
}

TEST_CASE("people whose names hold quotation marks, backslashes and any letters can be led",
          "[rehearsal][property]") {
    const scene::SceneFolder folder;
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
    while (edited->can_undo())
        edited->undo();
    CHECK(edited->text() == text);
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

// A hundred changes by lot on every scene that comes with the program. Those that a scene cannot
// have, such as somebody led behind the lens, are refused and leave all as it was.
TEST_CASE("whatever hands do, the file reads back, and undoing all of it gives the first text",
          "[rehearsal][property]") {
    std::mt19937 lot{20261126};
    const auto between = [&](double least, double most) {
        return least + (most - least) * static_cast<double>(lot()) / 4294967296.0;
    };
    for (const std::string& file : demo_scene_files()) {
        auto edited = EditedScene::open(file);
        REQUIRE(edited);
        const std::string first = edited->text();
        int done = 0;
        for (int i = 0; i < 100; ++i) {
            const scene::Scene& scene = edited->scene();
            const std::size_t who = lot() % scene.people.size();
            const std::vector<std::size_t> both{who, (who + 1) % scene.people.size()};
            const std::vector<Change> any{
                step(scene, who, between(-0.5, 0.5), between(-0.5, 0.5)),
                step(scene, both, between(-0.5, 0.5), between(-0.5, 0.5)),
                lead(scene, who, between(-3, 3), between(-1, 3), i % 2 == 0),
                turn(scene, who, between(-400, 400)),
                lean(scene, who, between(-1, 1)),
                take_posture(scene, who, static_cast<figures::Posture>(lot() % 6)),
                grow(scene, who, between(0, 3)),
                carry_camera(scene, between(1, 20), between(-2, 2)),
                raise_camera(between(0, 6)),
                stop_down(scene, static_cast<int>(between(-5, 5))),
                zoom(between(8, 200)),
                focus_on(scene, who),
                focus_evenly(),
                focus_at(between(0, 20))};
            const Change& change = any[lot() % any.size()];
            const std::string before = edited->text();
            if (edited->change(change.what, change.values))
                done += edited->text() != before;
            else
                CHECK(edited->text() == before);
        }
        CAPTURE(file);
        CHECK(done > 50);
        CHECK(scene::read_scene_text(edited->text(), file));
        while (edited->can_undo())
            edited->undo();
        CHECK(edited->text() == first);
        while (edited->can_redo())
            edited->redo();
        CHECK(scene::read_scene_text(edited->text(), file));
    }
}
