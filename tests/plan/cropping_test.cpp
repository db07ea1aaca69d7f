#include "plan/faces/cropping.h"

#include "posed.h"

#include <catch2/catch.hpp>

#include <utility>

using namespace backrow;
using namespace backrow::plan;

namespace {

/// Somebody of 1.8 m, three metres before a level camera, seen through a lens that shows this much
/// of the height there, from the ground that lies so high up.
Cropping shown(double from_up_m, double to_up_m, double across_m = 0) {
    scene::Scene scene = level_scene({somebody("Odile", {across_m, 0, 0}, 1.8)});
    scene.camera.lens_to_mark_m = 3;
    scene.camera.height_m = (from_up_m + to_up_m) / 2;
    scene.camera.level = true;
    scene.focus = scene::FocusAtDistance{3};
    // 24 mm of sensor over v, which is f·s/(s − f): f from the height that is to be seen.
    const double v_mm = 24.0 * 3 / (to_up_m - from_up_m);
    scene.camera.focal_length_mm = v_mm / (1 + v_mm / 3000);
    return cropping(camera_view(scene), posed_body(scene.people[0]));
}

}  // namespace

TEST_CASE("the highest place outside the frame is where it cuts", "[plan][property]") {
    CHECK(!shown(-0.3, 2.2).cut_at);
    CHECK(shown(0.2, 2.2).cut_at == Cut::feet);
    CHECK(shown(0.7, 2.2).cut_at == Cut::knees);
    CHECK(shown(1.2, 2.2).cut_at == Cut::waist);
    CHECK(shown(1.45, 2.0).cut_at == Cut::chest);
    CHECK(shown(1.7, 2.0).cut_at == Cut::chin);
    CHECK(shown(0.2, 1.7).cut_at == Cut::crown);
    CHECK(shown(-0.3, 2.2, 1.75).cut_at == Cut::side);
}

TEST_CASE("torsos without heads are cut at the crown, and no head is whole", "[plan][property]") {
    const Cropping torso = shown(0.4, 1.3);
    CHECK(torso.cut_at == Cut::crown);
    CHECK_FALSE(torso.has_whole_head);
    CHECK_FALSE(torso.is_head_close);
}

TEST_CASE("a head that barely fits is close to the edge", "[plan][property]") {
    // A head is about an eighth of the stature high; a quarter of that are 5 to 6 cm.
    CHECK(shown(0, 1.82).is_head_close);
    CHECK_FALSE(shown(0, 1.92).is_head_close);
}

TEST_CASE("whoever is behind the lens is in no picture", "[plan][property]") {
    scene::Scene scene = level_scene({somebody("Odile", {0, 0, -9}, 1.8)});
    scene.camera.lens_to_mark_m = 3;
    scene.focus = scene::FocusAtDistance{3};
    const Cropping behind = cropping(camera_view(scene), posed_body(scene.people[0]));
    CHECK(behind.cut_at == Cut::crown);
    CHECK_FALSE(behind.has_whole_head);
}
