#include "rehearsal/sitting/camera_places.h"

#include "rehearsal/sitting/edited_scene.h"

#include "demo_scenes.h"

#include "../scene_file/scene_folder.h"

#include "rehearsal/told/differences.h"

#include "scene/camera_view.h"

#include <catch2/catch.hpp>

using namespace backrow;
using namespace backrow::rehearsal;

TEST_CASE("the camera goes back to a place that was kept, with all that was set on it",
          "[rehearsal][property]") {
    const scene_file::SceneFolder folder;
    auto edited = EditedScene::open(folder.write(
        "duo.toml", "[camera]\naim = \"Ben\"\n[[row]]\npeople = [\"Ana\", \"Ben\"]\n"));
    REQUIRE(edited);
    const scene::Scene before = edited->scene();
    const CameraPlace place = camera_place(before);
    REQUIRE(edited->change("", {"camera.distance_m=3", "camera.across_m=1", "camera.height_m=2",
                                "camera.f_number=4", "camera.focal_length_mm=35",
                                "camera.orientation=portrait", "camera.level=true",
                                "camera.iso=400", "camera.shutter_s=0.01", "camera.aim=[0, 1, 0]",
                                "focus.balanced=true", "person.Ana.back_m=0.2"}));
    const auto seen = seen_from(edited->scene(), place);
    REQUIRE(seen);
    const Change back = go_to(edited->scene(), place);
    REQUIRE(edited->change(back.what, back.values));
    // But for her who has moved.
    CHECK(differences(before, edited->scene(), Units::metric) ==
          std::vector<std::string>{"Ana 20 cm back"});
    CHECK(differences(*seen, edited->scene(), Units::metric).empty());
    CHECK(go_to(edited->scene(), place).values.empty());
}

TEST_CASE("a place is of no use any more when whoever it was focused on has left",
          "[rehearsal][property]") {
    const CameraPlace place = camera_place(demo_scene("crew", {"focus.on=\"Imogen\""}));
    CHECK(seen_from(demo_scene("crew"), place));
    CHECK_FALSE(seen_from(demo_scene("choir"), place));
    CHECK(place_words(place, Units::metric).find("mm f/") != std::string::npos);
}

TEST_CASE("the aperture ring ends where the lens does", "[rehearsal][property]") {
    scene::Scene scene = demo_scene("choir");  // f/2
    scene.lens.profile = optics::LensProfile{.widest_f_number = 1.7, .smallest_f_number = 11};
    CHECK(stop_down(scene, -9).values == std::vector<std::string>{"camera.f_number=1.7"});
    CHECK(stop_down(scene, 30).values == std::vector<std::string>{"camera.f_number=11.0"});
    CHECK(stop_down(scene, 3).values == std::vector<std::string>{"camera.f_number=2.8"});
    scene.lens.profile.reset();
    CHECK(stop_down(scene, -3).values == std::vector<std::string>{"camera.f_number=1.4"});
}

TEST_CASE("whoever has not measured their lens takes one like it, of the same focal length",
          "[rehearsal][property]") {
    scene::Scene scene = demo_scene("couple");  // f/1.2
    const auto typical = scene_file::read_named_lens(std::string{scene_file::usual_lens}, "");
    REQUIRE(typical);
    const std::string named{scene_file::usual_lens};
    CHECK(take_own_lens(scene, named, *typical).values ==
          std::vector<std::string>{"lens.profile=\"typical-fast-prime\"", "camera.f_number=1.4"});
    scene.camera.f_number = 4;
    CHECK(take_own_lens(scene, named, *typical).values ==
          std::vector<std::string>{"lens.profile=\"typical-fast-prime\""});
}

TEST_CASE("a lens with faults is changed for a perfect one", "[rehearsal][property]") {
    scene::Scene scene = demo_scene("couple");
    CHECK(take_perfect_lens(scene).values.empty());
    scene.lens.profile_file = "difficult-fifty";
    scene.lens.profile = optics::LensProfile{};
    CHECK(take_perfect_lens(scene).values == std::vector<std::string>{"lens.profile=\"\""});
}

TEST_CASE("a lens of the bag opens no further than it can, and brings its profile or none",
          "[rehearsal][property]") {
    const scene::Scene scene = demo_scene("choir");  // f/2
    CHECK(take_lens(scene, {.name = "x", .focal_length_mm = 135, .widest_f_number = 2.8}).values ==
          std::vector<std::string>{"camera.focal_length_mm=135.0", "camera.f_number=2.8"});
    CHECK(take_lens(
              scene,
              {.name = "x", .focal_length_mm = 35, .widest_f_number = 1.4, .profile = "/soft.toml"})
              .values ==
          std::vector<std::string>{"camera.focal_length_mm=35.0", "lens.profile=\"/soft.toml\""});
    CHECK(lens_on_camera(scene).name == "85 mm f/2");
    CHECK(take_body(body_of_camera(scene)).values ==
          std::vector<std::string>{"camera.sensor_mm=[36.0, 24.0]", "camera.pixels=[6000, 4000]"});
}
