#include "plan/drawings/from_above.h"

#include "../rehearsal/demo_scenes.h"
#include "../scene_file/scene_folder.h"
#include "posed.h"

#include "optics/blur/blur_circle.h"
#include "optics/lens/lens_profile.h"
#include "scene/judged_blur.h"
#include "stage/model_shapes.h"

#include "base/units.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <vector>

using namespace backrow;
using namespace backrow::plan;
using backrow::rehearsal::demo_scene;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

FromAbove drawn(const scene::Scene& scene, const ModelOutlines& models = {}) {
    const scene::CameraView view = camera_view(scene);
    return from_above(scene, view, face_table(scene, view), models);
}

const ZoneSlice& middle_of(const DrawnZone& zone) {
    REQUIRE(zone.size() % 2 == 1);
    REQUIRE(zone[zone.size() / 2]);
    return *zone[zone.size() / 2];
}

/// The level camera of posed.h, at 50 mm f/2 focused at 10 ft; its lens is 3 m before the mark.
scene::Scene ten_feet_away() {
    scene::Scene scene = scene_of_pixels({somebody("Odile", {})});
    scene.camera.f_number = 2;
    scene.focus = scene::FocusAtDistance{3.048};
    return scene;
}

}  // namespace

// Worked out apart by near = s f²/(f² + N c (s − f)), far likewise with −, the forms of
// [RAY2002], from memory: 50 mm f/2 at 10 ft with 0.030 mm is sharp from 2843.4 to 3284.3 mm.
// Tolerance: half of the last printed digit.
TEST_CASE("the zone that holds is drawn where depth of field tables have it",
          "[plan][from-memory]") {
    const FromAbove drawing = drawn(ten_feet_away());
    const ZoneSlice& fine = middle_of(drawing.fine);
    CHECK_THAT(fine.near.y_m, WithinAbs(2.8434 - 3, 0.00005));
    CHECK_THAT(fine.far.y_m, WithinAbs(3.2843 - 3, 0.00005));
    CHECK_THAT(fine.near.x_m, WithinAbs(0, 1e-12));
    // Level camera, perfect lens: the same at the edge of the frame.
    CHECK_THAT(drawing.fine.back()->far.y_m, WithinAbs(fine.far.y_m, 1e-12));
    REQUIRE(drawing.plane_of_focus);
    CHECK_THAT(drawing.plane_of_focus->from.y_m, WithinAbs(0.048, 1e-12));
}

// By hand: v = f s/(s − f) = 0.05·3.048/2.998 m = 50.834 mm, so the frame is 36/50.834 of the
// distance wide, 24/50.834 high. A lens 1 m above the eyes meets their level first where half the
// frame's height is 1 m, at 1·2·50.834/24 = 4.2361 m.
TEST_CASE("the frame is as wide as the lens makes it, from where faces come into it",
          "[plan][property]") {
    scene::Scene scene = ten_feet_away();
    const double eyes_m = drawn(scene).level_m;
    scene.camera.height_m = eyes_m + 1;
    const FromAbove drawing = drawn(scene);
    const double v_mm = 50 * 3048.0 / 2998;
    REQUIRE(drawing.frame);
    const auto& [near_left, near_right, far_right, far_left] = *drawing.frame;
    CHECK_THAT(near_left.y_m, WithinAbs(2 * v_mm / 24 - 3, 1e-9));
    CHECK_THAT(near_right.x_m - near_left.x_m, WithinAbs(2 * v_mm / 24 * 36 / v_mm, 1e-9));
    CHECK_THAT(far_right.x_m - far_left.x_m, WithinRel((far_left.y_m + 3) * 36 / v_mm, 1e-9));
    // The plane of focus lies nearer than that: nothing of it is in the frame at this level.
    CHECK_FALSE(drawing.plane_of_focus);
}

// By hand: from (0, 6, −8) through (0, 1.5, 0), focused there, the plane of focus is
// 4.5 (up − 1.5) = 8 back.
TEST_CASE("from upstairs the plane of focus is drawn where it cuts the level of the eyes",
          "[plan][property]") {
    scene::Scene scene = scene_of_pixels({somebody("Odile", {})});
    scene.camera.height_m = 6;
    scene.camera.lens_to_mark_m = 8;
    scene.camera.level = false;
    scene.camera.aim = scene::FromMark{0, 1.5, 0};
    scene.focus = scene::FromMark{0, 1.5, 0};
    const FromAbove drawing = drawn(scene);
    REQUIRE(drawing.plane_of_focus);
    const double back_m = 4.5 * (drawing.level_m - 1.5) / 8;
    CHECK(std::abs(back_m) > 0.01);
    CHECK_THAT(drawing.plane_of_focus->from.y_m, WithinAbs(back_m, 1e-9));
    CHECK_THAT(drawing.plane_of_focus->to.y_m, WithinAbs(back_m, 1e-9));
    CHECK_THAT(drawing.plane_of_focus->from.x_m, WithinAbs(-drawing.plane_of_focus->to.x_m, 1e-9));
    CHECK(drawing.looks.y_m == 1);
}

// The zone's ends are found in one layer, the blur of a face there in another. An end that was cut
// off by the frame is sharper than the limit. Tolerance: ten rounds for the image height, of which
// each makes the error several times smaller.
TEST_CASE("at the ends of the zone a face is just as blurred as its grade allows",
          "[plan][property]") {
    int met = 0;
    for (const std::vector<std::string>& values :
         {std::vector<std::string>{}, std::vector<std::string>{"camera.height_m=6.0"}}) {
        const scene::Scene scene = demo_scene("reunion", values);
        REQUIRE(scene.lens.profile);
        const scene::CameraView view = camera_view(scene);
        const FromAbove drawing = drawn(scene);
        const double limit_mm = blur_limit_mm(optics::Grade::fine, scene, view).value();
        for (const auto& slice : drawing.fine) {
            if (!slice)
                continue;
            for (const DrawingPoint& point : {slice->near, slice->far}) {
                const scene::Seen seen =
                    project(view, scene::engine_from_mark({.across_m = point.x_m,
                                                           .up_m = drawing.level_m,
                                                           .back_m = point.y_m}));
                const double blur_mm =
                    optics::blur_diameter_mm(view.focused(), seen.axial_m, seen.image_height);
                CHECK(blur_mm <= limit_mm * (1 + 1e-6));
                met += std::abs(blur_mm / limit_mm - 1) < 1e-6;
            }
        }
    }
    CHECK(met > 100);
}

// At the level of somebody's own eye, that eye lies within the zone drawn there if and only if the
// face table calls it fine, lens profile and tilt and all.
TEST_CASE("drawn at the height of somebody's eyes, the zone tells whether that face is fine",
          "[plan][property]") {
    const scene::Scene scene =
        demo_scene("reunion", {"camera.height_m=6.0", "camera.f_number=1.4"});
    const scene::CameraView view = camera_view(scene);
    const FaceTable table = face_table(scene, view);
    int fine = 0;
    for (const Face& face : table.faces) {
        const FromAbove drawing = from_above(scene, view, table, {}, face.eye.up_m);
        // Of the two directions next to the eye's, whichever is nearer.
        const auto aside = [&](const std::optional<ZoneSlice>& slice) {
            if (!slice)
                return 1e9;
            const double share =
                (face.eye.back_m - slice->near.y_m) / (slice->far.y_m - slice->near.y_m);
            return std::abs(std::lerp(slice->near.x_m, slice->far.x_m, share) - face.eye.across_m);
        };
        const auto& slice = *std::ranges::min_element(drawing.fine, {}, aside);
        const bool is_fine = face.grade <= optics::Grade::fine;
        // Too near to the edge to be told by a direction that is not quite its own.
        const double to_edge_m = std::min(face.margin.front_m, face.margin.back_m);
        if (is_fine && to_edge_m < 0.02)
            continue;
        REQUIRE(slice);
        const bool within = face.eye.back_m >= slice->near.y_m && face.eye.back_m <= slice->far.y_m;
        CAPTURE(face.name);
        if (is_fine || std::abs(face.eye.back_m - slice->far.y_m) > 0.02)
            CHECK(within == is_fine);
        fine += is_fine;
    }
    CHECK(fine > 5);
    CHECK(fine < 35);
}

TEST_CASE("a lens with a curved field has a curved zone, a perfect one a straight one",
          "[plan][property]") {
    scene::Scene scene = ten_feet_away();
    scene.lens.profile = optics::LensProfile{.widest_f_number = 1.2, .field_curvature_dpt = 0.02};
    const FromAbove drawing = drawn(scene);
    // + curvature is − defocus: the sides hold nearer to the lens than the middle.
    CHECK(drawing.fine.front()->far.y_m < middle_of(drawing.fine).far.y_m - 0.01);
    CHECK_THAT(drawing.fine.front()->far.y_m, WithinAbs(drawing.fine.back()->far.y_m, 1e-9));
}

TEST_CASE("whoever takes the steps that are left stays fine, and one more is too many",
          "[plan][property]") {
    scene::Scene scene = demo_scene("choir", {"camera.height_m=3.5"});
    const FromAbove drawing = drawn(scene);
    const auto grade_after = [&](double back_m) {
        scene::Scene moved = scene;
        moved.people[3].place.back_m += back_m;
        // The aim is a point and the focus somebody else: the camera stays.
        const scene::CameraView view = camera_view(moved);
        return face_table(moved, view).faces[3].grade;
    };
    const PersonFromAbove& bram = drawing.people[3];
    REQUIRE(bram.verdict == Verdict::fine);
    CHECK(grade_after(bram.back_m - 0.001) == optics::Grade::fine);
    CHECK(grade_after(bram.back_m + 0.001) == optics::Grade::soft);
    CHECK(grade_after(0.001 - bram.forward_m) <= optics::Grade::fine);
    CHECK(grade_after(-0.001 - bram.forward_m) == optics::Grade::soft);
}

TEST_CASE("a body from above faces where it is turned, its head where that is",
          "[plan][property]") {
    scene::Person person = somebody("Odile", {.across_m = 0.4, .back_m = 0.2}, 1.74);
    person.pose.turn_deg = 90;
    person.pose.head_turn_deg = -30;
    const PersonFromAbove odile = drawn(level_scene({person})).people.front();
    CHECK(odile.place.x_m == 0.4);
    CHECK(odile.place.y_m == 0.2);
    CHECK_THAT(odile.body_faces.x_m, WithinAbs(1, 1e-12));
    CHECK_THAT(odile.head_faces.x_m, WithinAbs(std::sin(rad_from_deg(60)), 1e-12));
    CHECK_THAT(odile.head_faces.y_m, WithinAbs(-std::cos(rad_from_deg(60)), 1e-12));
    CHECK(odile.half_breadth_m > odile.half_depth_m);
    CHECK_THAT(odile.head.x_m, WithinAbs(0.4, 0.1));
}

TEST_CASE("a row's line stays where it was when somebody steps out of it", "[plan][property]") {
    const FromAbove drawing = drawn(demo_scene("crew"));
    REQUIRE(drawing.rows.size() == 1);
    const Line& line = drawing.rows.front().line;
    CHECK_THAT(line.from.x_m, WithinAbs(-2 * 0.58, 1e-12));
    CHECK_THAT(line.to.x_m, WithinAbs(2 * 0.58, 1e-12));
    CHECK_THAT(line.from.y_m, WithinAbs(0, 1e-12));
    CHECK_THAT(line.to.y_m, WithinAbs(0, 1e-12));
    CHECK_THAT(drawing.people.front().place.y_m, WithinAbs(-0.45, 1e-12));
}

TEST_CASE("risers and seats are drawn, and everybody lies within what is shown",
          "[plan][property]") {
    const FromAbove drawing = drawn(demo_scene("choir"));
    CHECK(drawing.risers.size() == 2);
    REQUIRE(drawing.backdrops.size() == 1);
    CHECK(drawing.backdrops.front().line.from.y_m == 16);
    const Extent extent = extent_of(drawing);
    CHECK(extent.low.y_m == -9.4);
    CHECK(extent.high.y_m < 3);
    for (const PersonFromAbove& person : drawing.people) {
        CHECK(person.nearer_eye.x_m > extent.low.x_m);
        CHECK(person.nearer_eye.x_m < extent.high.x_m);
        CHECK(person.nearer_eye.y_m < extent.high.y_m);
    }
}

// A step 1 m wide, 0.5 m deep and 2 units from its origin, twice as large and turned by 90° towards
// picture right: what lay behind the origin is at picture left then.
TEST_CASE("a model from above is as large as it is, turned and scaled as it stands",
          "[plan][property]") {
    const scene_file::SceneFolder folder;
    folder.write("step.obj", "v -0.5 0 -2\nv 0.5 0 -2\nv 0.5 0 -2.5\nv -0.5 1 -2.5\n"
                             "f 1 2 3\nf 1 3 4\n");
    auto scene = folder.read("[[person]]\nname = \"Odile\"\n[[model]]\nfile = \"step.obj\"\n"
                             "across_m = 1.0\nback_m = 3.0\nscale = 2.0\nturn_deg = 90.0\n");
    REQUIRE(scene);
    REQUIRE(stage::ModelShapes{}.give(*scene));
    const FromAbove drawing = drawn(*scene, outlines_of(scene->models));
    REQUIRE(drawing.models.front());
    Extent extent;
    for (const DrawingPoint& corner : *drawing.models.front())
        extent.take(corner);
    CHECK_THAT(extent.low.x_m, WithinAbs(1 - 5, 1e-6));
    CHECK_THAT(extent.high.x_m, WithinAbs(1 - 4, 1e-6));
    CHECK_THAT(extent.low.y_m, WithinAbs(3 - 1, 1e-6));
    CHECK_THAT(extent.high.y_m, WithinAbs(3 + 1, 1e-6));
    CHECK_FALSE(drawn(*scene).models.front());
}

TEST_CASE("a camera that looks straight down has no frame at the height of the eyes to draw",
          "[plan][property]") {
    scene::Scene scene = level_scene({somebody("Odile", {})});
    scene.camera.level = false;
    scene.camera.height_m = 6;
    scene.camera.lens_to_mark_m = 0.05;
    scene.camera.aim = scene::FromMark{0, 0, 0};
    const FromAbove drawing = drawn(scene);
    CHECK_FALSE(drawing.frame);
    CHECK(drawing.fine.empty());
    CHECK(drawing.people.size() == 1);
}
