#include "rehearsal/hands/place_handling.h"

#include "../scene_file/scene_folder.h"
#include "rehearsal/hands/light_handling.h"
#include "rehearsal/sitting/edited_scene.h"
#include "trio.h"

#include <catch2/catch.hpp>

#include <random>
#include <string>
#include <vector>

using namespace backrow;
using namespace backrow::rehearsal;
using Catch::Matchers::WithinRel;

namespace {

const std::string yard = R"(# Behind the school.
[setting]
ground = "paving"  # wet
[[setting.backdrop]]
kind   = "wall"
back_m = 4.0   # paced out
[[row]]
people = ["Odile", "Bram"]
[[person]]
name     = "Bram"
across_m = 0.5
[[model]]
file = "bench.obj"
)";

/// A triangle is enough of a bench, and nobody looks into the picture here.
struct Yard {
    scene_file::SceneFolder folder;
    EditedScene edited;

    Yard() : edited{opened(folder)} {}

    static EditedScene opened(const scene_file::SceneFolder& folder) {
        (void)folder.write("bench.obj", "v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 3\n");
        (void)folder.write("arch.obj", "v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 3\n");
        (void)folder.write("yard.png", "no picture");
        return *EditedScene::open(folder.write("yard.toml", yard));
    }
    [[nodiscard]] const scene::Scene& scene() const { return edited.scene(); }
    void done(const Change& change) {
        CAPTURE(change.what);
        CHECK(edited.change(change.what, change.values));
    }
};

}  // namespace

TEST_CASE("every change of the place is one that a scene file takes", "[rehearsal][property]") {
    Yard yard_;
    yard_.done(lay_ground(setting::Ground::sand));
    CHECK(yard_.scene().setting.ground == setting::Ground::sand);
    yard_.done(add_backdrop(yard_.scene()));
    REQUIRE(yard_.scene().setting.backdrops.size() == 2);
    CHECK(yard_.scene().setting.backdrops[1].back_m == 9);
    yard_.done(add_backdrop(yard_.scene()));
    CHECK(yard_.scene().setting.backdrops[2].back_m == 12);
    yard_.done(choose_backdrop(yard_.scene(), 1, setting::BackdropKind::beach));
    CHECK(yard_.scene().setting.backdrops[1].kind == setting::BackdropKind::beach);
    yard_.done(choose_finish(0, setting::Finish::plaster));
    yard_.done(move_backdrop(yard_.scene(), 0, 4.506));
    CHECK(yard_.scene().setting.backdrops[0].back_m == 4.51);
    yard_.done(hang_photo(yard_.scene(), 3, "yard.png", 6.5));
    REQUIRE(yard_.scene().setting.backdrops.size() == 4);
    yard_.done(scale_photo(3, 8));
    yard_.done(raise_photo(3, -0.4));
    yard_.done(shift_photo(3, 1.2));
    const setting::Backdrop& photo = yard_.scene().setting.backdrops[3];
    CHECK(photo.kind == setting::BackdropKind::photo);
    CHECK(photo.back_m == 15);
    CHECK(photo.photograph.width_m == 8);
    CHECK(photo.photograph.up_m == -0.4);
    CHECK(photo.photograph.across_m == 1.2);
    yard_.done(hang_photo(yard_.scene(), 1, "yard.png", 6.5));
    CHECK(yard_.scene().setting.backdrops[1].kind == setting::BackdropKind::photo);
    yard_.done(take_backdrop_away(yard_.scene(), 0));
    CHECK(yard_.scene().setting.backdrops.size() == 3);
    yard_.done(hang_panorama("yard.png"));
    yard_.done(turn_panorama(370));
    CHECK(yard_.scene().setting.panorama_turn_deg == 10);
    yard_.done(take_panorama_away());
    CHECK(yard_.scene().setting.panorama.empty());
    yard_.done(add_model(yard_.scene(), "arch.obj"));
    REQUIRE(yard_.scene().models.size() == 2);
    CHECK(yard_.scene().models[1].place.across_m > 1);
    yard_.done(place_model(yard_.scene(), 1, {.across_m = 1.5, .up_m = 0, .back_m = -0.5}));
    yard_.done(turn_model(1, -200));
    yard_.done(size_model(1, 0.001));
    CHECK(yard_.scene().models[1].place.back_m == -0.5);
    CHECK(yard_.scene().models[1].turn_deg == 160);
    CHECK(yard_.scene().models[1].scale == 0.001);
    yard_.done(take_model_away(yard_.scene(), 0));
    CHECK(short_name(yard_.scene().models[0].file) == "arch");
    while (yard_.edited.can_undo())
        yard_.edited.undo();
    CHECK(yard_.edited.text() == yard);
}

TEST_CASE("a photo without a file is no choice", "[rehearsal][property]") {
    const Yard yard_;
    CHECK(choose_backdrop(yard_.scene(), 0, setting::BackdropKind::photo).values.empty());
    CHECK(move_backdrop(yard_.scene(), 0, 4).values.empty());
    CHECK(move_backdrop(yard_.scene(), 0, 0).values == Values{"setting.backdrop.0.back_m=0.3"});
    CHECK(place_model(yard_.scene(), 0, {}).values.empty());
}

// By hand: a door of 90 cm that takes three tenths of the picture's width makes it 3 m wide;
// upright as well, for pixels are square: three, four and five tenths.
TEST_CASE("two points whose distance is known tell how wide a photo's place is",
          "[rehearsal][property]") {
    CHECK_THAT(*width_between_m({.across = 0.2, .down = 0.1}, {.across = 0.5, .down = 0.1}, 0.9),
               WithinRel(3.0, 1e-12));
    CHECK_THAT(*width_between_m({.across = 0.6, .down = 0.5}, {.across = 0.3, .down = 0.1}, 2),
               WithinRel(4.0, 1e-12));
    CHECK_FALSE(width_between_m({.across = 0.2, .down = 0.1}, {.across = 0.2, .down = 0.1}, 1));
}

TEST_CASE("a file in the scene's folder is named from there", "[rehearsal][property]") {
    const scene_file::SceneFolder folder;
    const std::string scene = folder.write("yard.toml", yard);
    const std::string inside = folder.write("pictures/yard.png", "");
    CHECK(scene_name_of(inside, scene) == "pictures/yard.png");
    CHECK(scene_name_of("pictures/yard.png", scene) == "pictures/yard.png");
    CHECK(scene_name_of("/elsewhere/yard.png", scene) == "/elsewhere/yard.png");
    CHECK(file_named("pictures/yard.png", scene) == inside);
    CHECK(file_named("/elsewhere/yard.png", scene) == "/elsewhere/yard.png");
}

// Two hundred changes by lot: what cannot be is refused and leaves all as it was.
TEST_CASE("whatever is done to place and light, the file reads back, and undoing all gives the "
          "first text",
          "[rehearsal][property]") {
    Yard yard_;
    std::mt19937 lot{20261129};
    const auto between = [&](double least, double most) {
        return least + (most - least) * static_cast<double>(lot()) / 4294967296.0;
    };
    int done = 0;
    for (int i = 0; i < 200; ++i) {
        const scene::Scene& scene = yard_.scene();
        const std::size_t backdrops = scene.setting.backdrops.size();
        scene::WindowPlace window = scene.light.window;
        window.azimuth_deg = between(-400, 400);
        window.distance_m = between(-1, 9);
        std::vector<Change> any{
            lay_ground(static_cast<setting::Ground>(lot() % 4)),
            add_backdrop(scene),
            hang_photo(scene, lot() % (backdrops + 1), "yard.png", between(-1, 20)),
            hang_panorama("yard.png"),
            take_panorama_away(),
            turn_panorama(between(-400, 400)),
            light_by(static_cast<scene::LightKind>(lot() % 2)),
            turn_sun(scene, between(-400, 400)),
            raise_sun(between(-100, 100)),
            move_window(scene, window),
            brighten(between(-20, 30)),
            add_model(scene, "arch.obj")};
        if (backdrops > 0) {
            const std::size_t which = lot() % backdrops;
            any.push_back(take_backdrop_away(scene, which));
            any.push_back(
                choose_backdrop(scene, which, static_cast<setting::BackdropKind>(lot() % 10)));
            any.push_back(move_backdrop(scene, which, between(-1, 20)));
            any.push_back(choose_finish(which, static_cast<setting::Finish>(lot() % 2)));
        }
        if (!scene.models.empty()) {
            const std::size_t which = lot() % scene.models.size();
            any.push_back(take_model_away(scene, which));
            any.push_back(place_model(scene, which, {between(-400, 400), 0, between(-9, 9)}));
            any.push_back(turn_model(which, between(-400, 400)));
            any.push_back(size_model(which, between(0, 2)));
        }
        const Change& change = any[lot() % any.size()];
        const std::string before = yard_.edited.text();
        CAPTURE(before, change.what);
        CHECK(yard_.edited.change(change.what, change.values));
        done += yard_.edited.text() != before;
    }
    CHECK(done > 100);
    while (yard_.edited.can_undo())
        yard_.edited.undo();
    CHECK(yard_.edited.text() == yard);
}
