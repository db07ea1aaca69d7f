#include "rehearsal/sitting/two_states.h"

#include "../scene_file/scene_folder.h"
#include "rehearsal/told/differences.h"

#include <catch2/catch.hpp>

#include <string>
#include <vector>

using namespace backrow;
using namespace backrow::rehearsal;
using Catch::Matchers::WithinAbs;

namespace {

const std::string trio = R"([camera]
f_number   = 2.0
distance_m = 4.0
shutter_s  = 0.004
iso        = 100
[focus]
on = "Ana"
[[row]]
people = ["Ana", "Ben", "Priya"]
[[setting.backdrop]]
kind   = "hedge"
back_m = 6.0
)";

struct Opened {
    scene_file::SceneFolder folder;
    EditedScene edited;

    Opened() : edited{*EditedScene::open(folder.write("trio.toml", trio))} {}
};

using Words = std::vector<std::string>;

}  // namespace

TEST_CASE("what differs between two states reads as a photographer says it",
          "[rehearsal][property]") {
    const scene_file::SceneFolder folder;
    const auto before = folder.read(trio);
    const auto words = [&](const std::vector<std::string>& values) {
        const auto after = folder.read(trio, values);
        REQUIRE(after);
        return differences(*before, *after, Units::metric);
    };
    CHECK(words({}) == Words{});
    CHECK(words({"camera.f_number=2.8", "person.Priya.back_m=-0.3"}) ==
          Words{"f/2 → f/2.8", "Priya 30 cm forward"});
    CHECK(words({"person.Ben.back_m=0.1", "person.Ana.back_m=0.1"}) ==
          Words{"Ana and Ben 10 cm back"});
    CHECK(words({"row.0.back_m=0.1"}) == Words{"Ana, Ben and Priya 10 cm back"});
    CHECK(words({"focus.balanced=true"}) == Words{"focus on Ana → evenly"});
    CHECK(words({"focus.distance_m=4.123"}) == Words{"focus on Ana → at 4.12 m"});
    CHECK(words({"camera.distance_m=4.5", "camera.height_m=1.7", "camera.across_m=-0.2"}) ==
          Words{"camera 4 m → 4.5 m away", "camera at 1.55 m → 1.7 m", "camera 20 cm to the left"});
    CHECK(words({"camera.shutter_s=0.002", "camera.iso=400"}) ==
          Words{"1/250 s → 1/500 s", "ISO 100 → 400"});
    CHECK(words({"person.Ana.turn_deg=15.0", "person.Ana.posture=\"seated\""}) ==
          Words{"Ana turned 0° → 15°", "Ana standing → seated"});
    CHECK(words({"person.Ana.lean_m=-0.1", "person.Ben.stature_m=1.9"}) ==
          Words{"Ana leans 10 cm forward", "Ben 1.7 m → 1.9 m tall"});
    CHECK(words({"viewing.use=\"wall\""}) == Words{"seen in an album → on a wall"});
    CHECK(words({"viewing.print_long_side_cm=60", "viewing.viewing_distance_cm=80"}) ==
          Words{"seen in an album → 60 cm long from 80 cm"});
    CHECK(words({"camera.exposure=\"as_set\"", "lens.blades=9"}) ==
          Words{"shown as metered → as set", "round opening → 9 blades"});
    CHECK(words({"row.0.people=[\"Ana\", \"Priya\", \"Quinn\"]"}).front() == "Quinn new");
    // Less than half a centimetre is nothing to tell anybody.
    CHECK(words({"person.Ben.back_m=0.004"}) == Words{});
}

TEST_CASE("place and light that differ read as a photographer says it", "[rehearsal][property]") {
    const scene_file::SceneFolder folder;
    (void)folder.write("bench.obj", "v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 3\n");
    (void)folder.write("yard.png", "");
    const std::string text = trio + "[[model]]\nfile = \"bench.obj\"\n";
    const auto before = folder.read(text);
    const auto words = [&](const std::vector<std::string>& values) {
        const auto after = folder.read(text, values);
        REQUIRE(after);
        return differences(*before, *after, Units::metric);
    };
    CHECK(words({"light.sun_azimuth_deg=170", "light.sun_elevation_deg=20"}) ==
          Words{"sun 30° further round, 20° high"});
    CHECK(words({"light.sun_azimuth_deg=-200"}) == Words{"sun 20° further round"});
    CHECK(words({"light.sun_azimuth_deg=130"}) == Words{"sun 10° back round"});
    CHECK(words({"light.scene_ev100=15"}) == Words{"heavy clouds, open shade, EV 12 → sun, EV 15"});
    CHECK(words({"light.kind=window", "light.window_distance_m=4"}) ==
          Words{"open sky → window", "window 3 m → 4 m away"});
    CHECK(words({"setting.backdrop.0.back_m=8"}) == Words{"hedge 6 m behind → 8 m"});
    CHECK(words({"setting.backdrop.0.kind=wall", "setting.backdrop.0.finish=plaster"}) ==
          Words{"hedge → wall", "wall of brick → plaster"});
    CHECK(words({"setting.backdrop.1.kind=trees"}) == Words{"trees new"});
    CHECK(words({"setting.backdrop.0.kind=\"\""}) == Words{"without the hedge"});
    CHECK(words({"setting.ground=sand"}) == Words{"ground grass → sand"});
    CHECK(words({"setting.panorama=yard.png"}) == Words{"above: sky → yard"});
    CHECK(words({"model.0.across_m=0.5", "model.0.turn_deg=20", "model.0.scale=2"}) ==
          Words{"bench 50 cm to the right", "bench turned 0° → 20°", "bench × 1 → 2"});
    CHECK(words({"model.0.file=\"\""}) == Words{"without the bench"});
    // Whoever comes first in the file and goes moves the lines of the others: no difference.
    CHECK(words({"model.1.file=bench.obj", "model.1.back_m=1"}) == Words{"bench new"});
}

TEST_CASE("every key that hands change makes a difference", "[rehearsal][property]") {
    const scene_file::SceneFolder folder;
    const auto before = folder.read(trio);
    for (const char* value : {"camera.focal_length_mm=50",
                              "camera.level=true",
                              "camera.orientation=\"portrait\"",
                              "camera.aim=\"Ben\"",
                              "camera.sensor_mm=[24.0, 16.0]",
                              "camera.pixels=[3000, 2000]",
                              "camera.exposure=\"as_set\"",
                              "lens.blades=9",
                              "viewing.use=\"wall\"",
                              "viewing.use=\"pixels\"",
                              "person.Ben.up_m=0.2",
                              "person.Ben.head_turn_deg=10",
                              "focus.point=[0.0, 1.6, 0.5]",
                              "setting.ground=boards",
                              "setting.panorama_turn_deg=5",
                              "setting.backdrop.0.back_m=7",
                              "setting.backdrop.0.kind=beach",
                              "light.kind=window",
                              "light.scene_ev100=14",
                              "light.sun_elevation_deg=10",
                              "light.window_azimuth_deg=10",
                              "light.window_width_m=3",
                              "light.window_height_m=1",
                              "light.window_sill_m=1"}) {
        CAPTURE(value);
        const auto after = folder.read(trio, {value});
        REQUIRE(after);
        CHECK(differences(*before, *after, Units::metric).size() == 1);
    }
}

TEST_CASE("a kept state is shown, taken, and taken back", "[rehearsal][property]") {
    Opened opened;
    EditedScene& edited = opened.edited;
    TwoStates states;
    CHECK(states.kept() == nullptr);
    states.keep(edited);
    REQUIRE(edited.change("f/4", {"camera.f_number=4.0"}));
    const std::string stopped_down = edited.text();
    CHECK(states.kept()->camera.f_number == 2);
    CHECK(edited.scene().camera.f_number == 4);

    REQUIRE(states.exchange(edited));
    CHECK(edited.text() == trio);
    CHECK(states.kept()->camera.f_number == 4);
    edited.undo();
    CHECK(edited.text() == stopped_down);
    edited.redo();
    REQUIRE(states.exchange(edited));
    CHECK(edited.text() == stopped_down);
    CHECK(states.kept()->camera.f_number == 2);
    states.forget();
    CHECK(states.kept() == nullptr);
}

// By hand: f/2 → f/4 is two stops, 1/250 → 1/125 s gives one back, ISO 100 → 400 two. In the
// background, far out of focus, the disc halves with the opening: b = f²/N·… of blur_circle.h.
TEST_CASE("two states are weighed by light, background and the least sharp face",
          "[rehearsal][property]") {
    const scene_file::SceneFolder folder;
    const auto before =
        folder.read(trio, {"person.Priya.back_m=0.9", "camera.focal_length_mm=50.0"});
    const auto after =
        folder.read(trio, {"person.Priya.back_m=0.9", "camera.focal_length_mm=50.0",
                           "camera.f_number=4.0", "camera.shutter_s=0.008", "camera.iso=400"});
    const Comparison both = compare(*before, *after, Units::metric);
    CHECK_THAT(both.stops_lost, WithinAbs(2, 1e-9));
    CHECK_THAT(both.stops_darker, WithinAbs(2 - 1 - 2, 1e-9));
    CHECK(both.before.worst_face.name == "Priya");
    CHECK(both.before.worst == 2);
    CHECK(both.after.worst_face.grade < both.before.worst_face.grade);
    CHECK_THAT(both.after.background_percent, WithinAbs(both.before.background_percent / 2, 1e-9));
    CHECK(both.before.faces_of_grade == std::array{2, 0, 1, 0});
    CHECK(both.differences.size() == 3);
}
