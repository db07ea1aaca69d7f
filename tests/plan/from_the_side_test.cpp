#include "plan/drawings/from_the_side.h"

#include "../rehearsal/demo_scenes.h"
#include "posed.h"

#include "base/units.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace backrow;
using namespace backrow::plan;
using backrow::rehearsal::demo_scene;
using backrow::rehearsal::demo_scene_files;
using Catch::Matchers::WithinAbs;

namespace {

FromTheSide drawn(const scene::Scene& scene) {
    const scene::CameraView view = camera_view(scene);
    return from_the_side(scene, view, face_table(scene, view));
}

/// From a line on the paper, + on the right of whoever goes up along it.
double beside_m(const Line& line, const DrawingPoint& point) {
    const double x = line.to.x_m - line.from.x_m;
    const double y = line.to.y_m - line.from.y_m;
    return ((point.x_m - line.from.x_m) * y - (point.y_m - line.from.y_m) * x) / std::hypot(x, y);
}

}  // namespace

// The forms of [RAY2002], from memory, as in from_above_test: 50 mm f/2 at 10 ft with 0.030 mm is
// sharp from 2843.4 to 3284.3 mm. Tolerance: half of the last printed digit.
TEST_CASE("in profile the zone is as deep as depth of field tables have it",
          "[plan][from-memory]") {
    scene::Scene scene = scene_of_pixels({with_eye_at("Odile", 3.048)});
    scene.camera.f_number = 2;
    scene.focus = scene::FocusAtDistance{3.048};
    const FromTheSide drawing = drawn(scene);
    for (const auto& slice : drawing.fine) {
        REQUIRE(slice);
        CHECK_THAT(slice->near.x_m, WithinAbs(2.8434, 0.00005));
        CHECK_THAT(slice->far.x_m, WithinAbs(3.2843, 0.00005));
    }
    // As high as the frame, 24 mm on 50.834 mm at 3.048 m.
    REQUIRE(drawing.plane_of_focus);
    CHECK_THAT(drawing.plane_of_focus->to.y_m - drawing.plane_of_focus->from.y_m,
               WithinAbs(3.048 * 24 / (50 * 3048.0 / 2998), 1e-9));
    CHECK_THAT(drawing.heads.front().nearer_eye.x_m, WithinAbs(3.048, 1e-9));
}

TEST_CASE("on the paper an eye is as far from the plane of focus as along the axis",
          "[plan][property]") {
    for (const std::string& file : demo_scene_files()) {
        CAPTURE(file);
        const auto scene =
            scene_file::read_scene(file, {"camera.height_m=4.0", "camera.across_m=1.0"});
        REQUIRE(scene);
        const scene::CameraView view = camera_view(*scene);
        const FaceTable table = face_table(*scene, view);
        const FromTheSide drawing = from_the_side(*scene, view, table);
        REQUIRE(drawing.plane_of_focus);
        REQUIRE(drawing.heads.size() == table.faces.size());
        for (std::size_t i = 0; i < table.faces.size(); ++i)
            CHECK_THAT(beside_m(*drawing.plane_of_focus, drawing.heads[i].nearer_eye),
                       WithinAbs(m_from_mm(table.faces[i].offset_mm), 1e-9));
    }
}

TEST_CASE("a head in profile looks at the camera, its farther ear behind its nose",
          "[plan][property]") {
    const scene::Scene scene =
        level_scene({somebody("Odile", {.back_m = 0.5}), somebody("Bram", {})});
    const FromTheSide drawing = drawn(scene);
    const HeadFromTheSide& odile = drawing.heads.front();
    CHECK(odile.nose_tip.x_m < odile.nearer_eye.x_m);
    CHECK(odile.nearer_eye.x_m < odile.farther_ear.x_m);
    CHECK(odile.chin.y_m < odile.nearer_eye.y_m);
    CHECK(odile.nearer_eye.y_m < odile.crown.y_m);
    CHECK_THAT(odile.nearer_eye.x_m - drawing.heads.back().nearer_eye.x_m, WithinAbs(0.5, 0.03));
    CHECK_THAT(odile.crown.y_m - odile.chin.y_m, WithinAbs(odile.height_m, 0.02));
    for (const HeadFromTheSide& head : drawing.heads)
        for (const DrawingPoint& point : {head.nose_tip, head.farther_ear, head.crown, head.chin}) {
            CHECK(point.x_m > drawing.heads_extent.low.x_m);
            CHECK(point.x_m < drawing.heads_extent.high.x_m);
            CHECK(point.y_m > drawing.heads_extent.low.y_m);
            CHECK(point.y_m < drawing.heads_extent.high.y_m);
        }
    CHECK(drawing.lens.x_m == 0);
    CHECK(drawing.lens.y_m == 1.6);
}

TEST_CASE("from a window upstairs the plane of focus leans back in profile", "[plan][property]") {
    const FromTheSide level = drawn(demo_scene("reunion", {"camera.level=true"}));
    CHECK_THAT(level.plane_of_focus->from.x_m, WithinAbs(level.plane_of_focus->to.x_m, 1e-9));
    const FromTheSide upstairs = drawn(demo_scene("reunion", {"camera.height_m=6.0"}));
    CHECK(upstairs.plane_of_focus->to.x_m > upstairs.plane_of_focus->from.x_m + 1);
}
