#include "plan/faces/whole_group.h"

#include "posed.h"

#include <catch2/catch.hpp>

using namespace backrow;
using namespace backrow::plan;

namespace {

scene::Scene four_too_near() {
    scene::Scene scene = level_scene(
        {somebody("Odile", {.across_m = -0.9}), somebody("Bram", {.across_m = -0.3}, 1.9),
         somebody("Sefu", {.across_m = 0.3}), somebody("Yuki", {.across_m = 0.9}, 1.6)});
    scene.camera.level = false;
    scene.camera.aim = scene::AimAtGroup{};
    scene.camera.focal_length_mm = 50;
    scene.camera.lens_to_mark_m = 2.5;
    scene.focus = scene::FocusBalanced{};
    return scene;
}

}  // namespace

TEST_CASE("the whole group fits from there on, and a little nearer it does not",
          "[plan][property]") {
    scene::Scene scene = four_too_near();
    REQUIRE_FALSE(frame_cuts(scene).is_whole_group());
    const auto from_m = whole_group(scene).lens_to_mark_m;
    REQUIRE(from_m);
    scene.camera.lens_to_mark_m = *from_m;
    CHECK(frame_cuts(scene).is_whole_group());
    scene.camera.lens_to_mark_m = *from_m - 0.02;
    CHECK_FALSE(frame_cuts(scene).is_whole_group());
}

TEST_CASE("a shorter lens from the same place does it, too", "[plan][property]") {
    scene::Scene scene = four_too_near();
    const auto with_mm = whole_group(scene).focal_length_mm;
    REQUIRE(with_mm);
    CHECK(*with_mm < 50);
    scene.camera.focal_length_mm = *with_mm;
    CHECK(frame_cuts(scene).is_whole_group());
    scene.camera.focal_length_mm = *with_mm + 1;
    CHECK_FALSE(frame_cuts(scene).is_whole_group());
}

TEST_CASE("aimed past the group no distance is far enough", "[plan][property]") {
    scene::Scene scene = four_too_near();
    scene.camera.aim = scene::FromMark{.across_m = 9, .up_m = 1, .back_m = 0};
    scene.focus = scene::FocusAtDistance{3};
    CHECK_FALSE(whole_group(scene).lens_to_mark_m);
}
