#include "stage/stage_change.h"

#include "../scene/fifty.h"

#include "../scene/group.h"

#include <catch2/catch.hpp>

using namespace backrow;
using namespace backrow::scene;
using namespace backrow::stage;

namespace {

Scene before_a_hedge() {
    Scene scene;
    scene.camera = scene::fifty_wide_open();
    scene.people = rows_at({0.0, 0.3});
    scene.focus = FocusOnPerson{"p1"};
    scene.setting.backdrops.push_back({.kind = setting::BackdropKind::hedge, .back_m = 9});
    return scene;
}

}  // namespace

TEST_CASE("surroundings are the same wherever in a file they are named", "[stage][property]") {
    const Scene scene = before_a_hedge();
    Scene other = scene;
    other.setting.panorama_at = {.file = "elsewhere.toml", .line = 12, .column = 3};
    other.people.front().name = "Odile";
    other.camera.f_number = 8;
    CHECK(same_surroundings(scene, other));
    other.setting.backdrops.front().back_m = 8;
    CHECK_FALSE(same_surroundings(scene, other));
    other = scene;
    other.light.sun_elevation_deg += 1;
    CHECK_FALSE(same_surroundings(scene, other));
    other = scene;
    other.models.emplace_back();
    CHECK_FALSE(same_surroundings(scene, other));
}

TEST_CASE("a stage serves any ring of the lens, but no other place of it", "[stage][property]") {
    const Scene scene = before_a_hedge();
    const CameraView view = camera_view(scene);
    const auto serves = [&](const auto& change) {
        Scene other = scene;
        change(other);
        return stage_serves(scene, view, camera_view(other));
    };
    CHECK(serves([](Scene&) {}));
    CHECK(serves([](Scene& s) { s.camera.f_number = 5.6; }));
    CHECK(serves([](Scene& s) { s.focus = FocusAtDistance{6}; }));
    CHECK_FALSE(serves([](Scene& s) { s.camera.lens_to_mark_m += 0.1; }));
    CHECK_FALSE(serves([](Scene& s) { s.camera.height_m += 0.1; }));
    CHECK_FALSE(serves([](Scene& s) { s.camera.focal_length_mm = 35; }));
    CHECK_FALSE(serves([](Scene& s) { s.camera.orientation = Orientation::portrait; }));
}
