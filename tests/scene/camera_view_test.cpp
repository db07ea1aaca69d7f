#include "scene/camera_view.h"

#include "fifty.h"

#include "optics/blur/blur_circle.h"

#include "base/units.h"

#include <glm/geometric.hpp>

#include "optics/blur/blur_circle.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

namespace backrow::scene {
namespace {

// Double arithmetic over a dozen operations on lengths of metres.
constexpr double rounding = 1e-12;
constexpr double rounding_px = 1e-8;

Person person(const std::string& name, const FromMark& place, double stature_m = 1.70) {
    return {.name = name,
            .place = place,
            .measures = figures::body_measures(stature_m, 30.0),
            .pose = {}};
}

Scene scene_of(std::vector<Person> people) {
    Scene scene;
    scene.camera = scene::fifty_wide_open();
    scene.people = std::move(people);
    scene.focus = FocusAtDistance{4.0};
    return scene;
}

void check_right_angled(const CameraView& view) {
    CHECK(glm::length(view.right) == Approx(1).margin(rounding));
    CHECK(glm::length(view.up) == Approx(1).margin(rounding));
    CHECK(glm::length(view.forward) == Approx(1).margin(rounding));
    CHECK(glm::dot(view.right, view.up) == Approx(0).margin(rounding));
    CHECK(glm::dot(view.right, view.forward) == Approx(0).margin(rounding));
    CHECK(glm::length(glm::cross(view.right, view.up) + view.forward) ==
          Approx(0).margin(rounding));
    CHECK(view.right.y == 0);  // never rolled
    CHECK(view.up.y > 0);
}

}  // namespace

TEST_CASE("across is right, up is up and back is away from the camera", "[scene][property]") {
    CHECK(engine_from_mark({.across_m = 1, .up_m = 2, .back_m = 3}) == glm::dvec3{1, 2, -3});
    const FromMark back = mark_from_engine({1, 2, -3});
    CHECK(back.across_m == 1);
    CHECK(back.up_m == 2);
    CHECK(back.back_m == 3);
}

TEST_CASE("the lens stands in front of the mark and looks at the aim", "[scene][property]") {
    Scene scene = scene_of({person("Odile", {})});
    scene.camera.lens_to_mark_m = 4.5;
    scene.camera.height_m = 1.5;
    scene.camera.across_m = 0.25;
    scene.camera.aim = FromMark{.across_m = 0.25, .up_m = 1.5, .back_m = 0};
    const CameraView view = camera_view(scene);
    CHECK(view.position_m == glm::dvec3{0.25, 1.5, 4.5});
    CHECK(view.forward == glm::dvec3{0, 0, -1});
    CHECK(view.right == glm::dvec3{1, 0, 0});
    CHECK(view.up == glm::dvec3{0, 1, 0});
    CHECK(view.look_at_m == glm::dvec3{0.25, 1.5, 0});
}

TEST_CASE("a point on the axis lands in the middle of the picture", "[scene][property]") {
    Scene scene = scene_of({person("Odile", {})});
    scene.camera.aim = FromMark{.across_m = 1.2, .up_m = 0.4, .back_m = 2};
    scene.camera.across_m = -0.7;
    const CameraView view = camera_view(scene);
    check_right_angled(view);
    for (const double along_m : {0.5, 3.0, 40.0}) {
        const Seen seen = project(view, view.position_m + along_m * view.forward);
        CHECK(seen.axial_m == Approx(along_m).epsilon(rounding));
        CHECK(seen.at_px.x == Approx(3000).margin(rounding_px));
        CHECK(seen.at_px.y == Approx(2000).margin(rounding_px));
        CHECK(seen.image_height == Approx(0).margin(rounding_px));
    }
}

// By hand: 50 mm focused at 3 m: v = 50·3000/2950 = 50.847457… mm. A point 4 m away, 0.8 m to the
// right and 0.4 m up lands v·0.2 = 10.1694915 mm right, v·0.1 = 5.0847458 mm up; at 6000/36 pixels
// a millimetre that is 1694.91525 and 847.457627 pixels from the middle (3000, 2000).
TEST_CASE("a point off the axis lands where similar triangles put it", "[scene][property]") {
    Scene scene = scene_of({person("Odile", {})});
    scene.camera.height_m = 1.0;
    scene.camera.aim = FromMark{.across_m = 0, .up_m = 1, .back_m = 0};
    scene.focus = FocusAtDistance{3.0};
    const CameraView view = camera_view(scene);
    CHECK(view.image_distance_mm() == Approx(50.0 * 3000 / 2950).epsilon(rounding));
    CHECK(view.px_per_mm() == Approx(6000.0 / 36).epsilon(rounding));
    const Seen seen = project(view, view.position_m + glm::dvec3{0.8, 0.4, -4});
    CHECK(seen.axial_m == Approx(4).epsilon(rounding));
    CHECK(seen.at_px.x == Approx(3000 + 1694.915254237).margin(1e-6));
    CHECK(seen.at_px.y == Approx(2000 - 847.457627119).margin(1e-6));
    // Out of a corner at hypot(18, 12) mm.
    CHECK(seen.image_height ==
          Approx(std::hypot(10.169491525, 5.084745763) / std::hypot(18, 12)).epsilon(1e-9));
}

TEST_CASE("the corner of the sensor is the corner of the picture", "[scene][property]") {
    const CameraView view = camera_view(scene_of({person("Odile", {})}));
    const double v_mm = view.image_distance_mm();
    const Seen corner =
        project(view, view.position_m +
                          10.0 * (view.forward - 18 / v_mm * view.right + 12 / v_mm * view.up));
    CHECK(corner.at_px.x == Approx(0).margin(rounding_px));
    CHECK(corner.at_px.y == Approx(0).margin(rounding_px));
    CHECK(corner.image_height == Approx(1).epsilon(rounding));
}

TEST_CASE("the frame narrows as the focus comes close", "[scene][property]") {
    Scene scene = scene_of({person("Odile", {})});
    scene.focus = FocusAtDistance{1.0};
    const CameraView close = camera_view(scene);
    scene.focus = FocusAtDistance{100.0};
    const CameraView distant = camera_view(scene);
    const glm::dvec3 point = close.position_m + 4.0 * close.forward + 0.5 * close.right;
    // Enlarged by the ratio of image distances, 1/(1 − f/s): 1.052632 against 1.000500.
    CHECK((project(close, point).at_px.x - 3000) / (project(distant, point).at_px.x - 3000) ==
          Approx((1 - 0.0005) / (1 - 0.05)).epsilon(1e-10));
}

TEST_CASE("portrait turns the sensor and its pixels", "[scene][property]") {
    Scene scene = scene_of({person("Odile", {})});
    scene.camera.orientation = Orientation::portrait;
    const CameraView view = camera_view(scene);
    CHECK(view.sensor_width_mm == 24);
    CHECK(view.sensor_height_mm == 36);
    CHECK(view.width_px == 4000);
    CHECK(view.height_px == 6000);
    CHECK(view.px_per_mm() == Approx(6000.0 / 36).epsilon(rounding));
}

TEST_CASE("a sensor whose pixels are not square still fills its picture", "[scene][property]") {
    Scene scene = scene_of({person("Odile", {})});
    scene.camera.pixels = {1000, 1000};
    const CameraView view = camera_view(scene);
    const double v_mm = view.image_distance_mm();
    const Seen corner =
        project(view, view.position_m +
                          3.0 * (view.forward + 18 / v_mm * view.right - 12 / v_mm * view.up));
    CHECK(corner.at_px.x == Approx(1000).margin(rounding_px));
    CHECK(corner.at_px.y == Approx(1000).margin(rounding_px));
}

TEST_CASE("a level camera keeps its axis horizontal and turns only sideways", "[scene][property]") {
    Scene scene = scene_of({person("Odile", {})});
    scene.camera.level = true;
    scene.camera.height_m = 3.0;
    scene.camera.lens_to_mark_m = 4.0;
    scene.camera.aim = FromMark{.across_m = 3, .up_m = 0.2, .back_m = 0};
    const CameraView view = camera_view(scene);
    check_right_angled(view);
    CHECK(view.forward.y == 0);
    CHECK(view.up.y == Approx(1).epsilon(rounding));
    // Three across on four away is the 3-4-5 triangle.
    CHECK(view.forward.x == Approx(0.6).epsilon(rounding));
    CHECK(view.forward.z == Approx(-0.8).epsilon(rounding));
}

TEST_CASE("tilting the camera shortens axial distances by the cosine", "[scene][property]") {
    Scene scene = scene_of({person("Odile", {})});
    scene.camera.height_m = 4.0;
    scene.camera.lens_to_mark_m = 3.0;
    // Down three by four: the axis points at the mark itself, five metres away.
    scene.camera.aim = FromMark{};
    const CameraView view = camera_view(scene);
    check_right_angled(view);
    CHECK(axial_m(view, {0, 0, 0}) == Approx(5).epsilon(rounding));
    // A point at the lens's own height, ten metres in front, is seen at an angle of cosine 3/5.
    CHECK(axial_m(view, view.position_m + glm::dvec3{0, 0, -10}) == Approx(6).epsilon(rounding));
    // The focus point obeys the same.
    scene.focus = FromMark{.across_m = 0.9, .up_m = 4, .back_m = 7};
    CHECK(camera_view(scene).lens.focus_m == Approx(6).epsilon(rounding));
}

TEST_CASE("a point behind the camera is told by its axial distance", "[scene][property]") {
    const CameraView view = camera_view(scene_of({person("Odile", {})}));
    CHECK(project(view, view.position_m - 2.0 * view.forward).axial_m ==
          Approx(-2).epsilon(rounding));
    CHECK(project(view, view.position_m).axial_m == 0);
}

TEST_CASE("aimed at a group that does not fit, the frame keeps the faces", "[scene][property]") {
    Scene scene = scene_of({person("Odile", {.across_m = -0.3, .up_m = 0, .back_m = 0}),
                            person("Bram", {.across_m = 0.3, .up_m = 0, .back_m = 0})});
    for (const Orientation orientation : {Orientation::landscape, Orientation::portrait})
        for (const double lens_to_mark_m : {1.2, 1.5, 2.0, 3.0}) {
            scene.camera.orientation = orientation;
            scene.camera.focal_length_mm = 50;
            scene.camera.lens_to_mark_m = lens_to_mark_m;
            const CameraView view = camera_view(scene);
            CAPTURE(lens_to_mark_m, orientation == Orientation::portrait);
            for (const Person& each : scene.people) {
                const figures::ReferencePoints points = reference_points(each);
                CHECK(project(view, points.crown_m).at_px.y > 0.03 * view.height_px);
                CHECK(project(view, points.chin_m).at_px.y < view.height_px);
            }
        }
}

TEST_CASE("aimed at a group that just fits, the frame keeps crowns and soles",
          "[scene][property]") {
    // From low down and near, the middle of the group is not the middle of what is seen of it.
    Scene scene = scene_of({person("Odile", {.across_m = 0, .up_m = 0, .back_m = 0}),
                            person("Bram", {.across_m = 0.2, .up_m = 0.9, .back_m = 3})});
    scene.camera.height_m = 0.4;
    scene.camera.focal_length_mm = 35;
    int kept = 0;
    for (double lens_to_mark_m = 3.0; lens_to_mark_m < 6; lens_to_mark_m += 0.25) {
        scene.camera.lens_to_mark_m = lens_to_mark_m;
        const CameraView view = camera_view(scene);
        double top = view.height_px, bottom = 0;
        for (const Person& each : scene.people) {
            top = std::min(top, project(view, reference_points(each).crown_m).at_px.y);
            for (const glm::dvec3& sole_m : posed_body(each).marks.soles_m)
                bottom = std::max(bottom, project(view, sole_m).at_px.y);
        }
        CAPTURE(lens_to_mark_m, top, bottom);
        // Whatever fits in a frame of this height, less the slack of a fiftieth on either side.
        if (bottom - top < 0.94 * view.height_px) {
            CHECK(top >= 0);
            CHECK(bottom <= view.height_px);
            ++kept;
        }
    }
    CHECK(kept > 3);
}

// A lens errs by 2a/3 more where it is best in focus, with a at the edge of the
// opening, and by C·h² in the field; what it makes of a point is asked of blur_circle.h.
TEST_CASE("what is focused on is best in focus, whatever the lens", "[scene][property]") {
    Scene scene = scene_of({person("Odile", {.across_m = -1.2, .up_m = 0, .back_m = 0.3}),
                            person("Bram", {.across_m = 0.2, .up_m = 0, .back_m = 0.9})});
    scene.camera.lens_to_mark_m = 4;
    scene.camera.f_number = 2;
    scene.focus = FocusOnPerson{"Odile"};
    scene.lens.profile = optics::LensProfile{
        .widest_f_number = 1.4, .spherical_dpt = 0.06, .field_curvature_dpt = -0.05};
    const auto blur_mm = [&](const CameraView& view) {
        const Seen eye = project(view, nearer_eye_m(view, scene.people[0]));
        return optics::blur_diameter_mm(view.focused(), eye.axial_m, eye.image_height);
    };
    const CameraView best = camera_view(scene);
    for (const double off_m : {-0.05, -0.01, 0.01, 0.05}) {
        CameraView other = best;
        other.lens.focus_m += off_m;
        CAPTURE(off_m);
        CHECK(blur_mm(other) > blur_mm(best));
    }
    // Found wide open, stopping down carries it away from her.
    scene.focus_found_at = FocusFoundAt::wide_open;
    CHECK(blur_mm(camera_view(scene)) > 1.2 * blur_mm(best));
    scene.camera.f_number = 1.4;
    const double wide_open_mm = blur_mm(camera_view(scene));
    scene.focus_found_at = FocusFoundAt::working;
    CHECK(blur_mm(camera_view(scene)) == Approx(wide_open_mm).epsilon(rounding));
}

TEST_CASE("balanced is equally blurred through any lens", "[scene][property]") {
    Scene scene = scene_of({person("Odile", {.across_m = -1.2, .up_m = 0, .back_m = 0}),
                            person("Bram", {.across_m = 0.2, .up_m = 0, .back_m = 0.9})});
    scene.camera.lens_to_mark_m = 4;
    scene.camera.f_number = 2;
    scene.focus = FocusBalanced{};
    scene.lens.profile = optics::LensProfile{
        .widest_f_number = 1.4, .spherical_dpt = 0.06, .field_curvature_dpt = -0.05};
    const CameraView view = camera_view(scene);
    std::vector<double> blurs_mm;
    for (const Person& each : scene.people) {
        const Seen eye = project(view, nearer_eye_m(view, each));
        blurs_mm.push_back(optics::blur_diameter_mm(view.focused(), eye.axial_m, eye.image_height));
    }
    CHECK(blurs_mm[0] == Approx(blurs_mm[1]).epsilon(1e-6));
}

TEST_CASE("aimed at the group, the axis meets the middle from feet to crown", "[scene][property]") {
    const glm::dvec3 alone = aim_point_m(scene_of({person("Odile", {})}));
    CHECK(alone.y == Approx(reference_points(person("Odile", {})).crown_m.y / 2).epsilon(rounding));
    CHECK(alone.x == Approx(0).margin(0.1));  // no stance is wider on one side by more than a foot

    // The same figure twice: the box grows by the step between the two, its middle by half of it.
    Scene scene = scene_of({person("Odile", {.across_m = -0.5, .up_m = 0, .back_m = 0}),
                            person("Odile", {.across_m = 1.5, .up_m = 0.4, .back_m = 2})});
    scene.camera.lens_to_mark_m = 20;
    const glm::dvec3 middle = aim_point_m(scene);
    CHECK(middle.x == Approx(alone.x + 0.5).margin(rounding));
    CHECK(middle.y == Approx(alone.y + 0.2).margin(rounding));
    CHECK(middle.z == Approx(alone.z - 1).margin(rounding));
    CHECK(camera_view(scene).look_at_m == middle);
}

TEST_CASE("aimed at a person, the axis passes between the eyes", "[scene][property]") {
    Scene scene =
        scene_of({person("Odile", {}), person("Bram", {.across_m = 1, .up_m = 0, .back_m = 2})});
    scene.camera.aim = AimAtPerson{"Bram"};
    const CameraView view = camera_view(scene);
    const figures::ReferencePoints points = reference_points(scene.people[1]);
    const Seen left = project(view, points.left_eye_m);
    const Seen right = project(view, points.right_eye_m);
    // An unturned face seen a little from the side: the eyes lie about the middle, not exactly.
    CHECK((left.at_px.x + right.at_px.x) / 2 == Approx(3000).margin(1));
    CHECK((left.at_px.y + right.at_px.y) / 2 == Approx(2000).margin(1));
}

TEST_CASE("focus on a person is the nearer eye", "[scene][property]") {
    Scene scene = scene_of({person("Odile", {})});
    scene.camera.aim = FromMark{.across_m = 0, .up_m = 1.55, .back_m = 0};
    scene.focus = FocusOnPerson{"Odile"};
    scene.people[0].pose.turn_deg = 40;
    const CameraView view = camera_view(scene);
    const figures::ReferencePoints points = reference_points(scene.people[0]);
    // Level axis along −z: axial distance is 4.5 − z.
    const double left_m = 4.5 - points.left_eye_m.z;
    const double right_m = 4.5 - points.right_eye_m.z;
    CHECK(left_m != Approx(right_m).margin(0.01));
    CHECK(view.lens.focus_m == Approx(std::min(left_m, right_m)).epsilon(rounding));
    CHECK(axial_m(view, nearer_eye_m(view, scene.people[0])) ==
          Approx(view.lens.focus_m).epsilon(rounding));
}

// Source: [NAVEDTRA14209]: to hold near and far alike, focus at 2·near·far/(near + far).
TEST_CASE("balanced focus blurs the nearest and the farthest face alike", "[scene][published]") {
    Scene scene = scene_of({person("middle", {.across_m = 0, .up_m = 0, .back_m = 0.5}),
                            person("near", {.across_m = -0.6, .up_m = 0, .back_m = 0}),
                            person("far", {.across_m = 0.6, .up_m = 0, .back_m = 1.8})});
    scene.focus = FocusBalanced{};
    const CameraView view = camera_view(scene);
    const double near_m = axial_m(view, nearer_eye_m(view, scene.people[1]));
    const double far_m = axial_m(view, nearer_eye_m(view, scene.people[2]));
    CHECK(view.lens.focus_m == Approx(2 * near_m * far_m / (near_m + far_m)).epsilon(rounding));
    CHECK(optics::blur_diameter_mm(view.focused(), near_m) ==
          Approx(optics::blur_diameter_mm(view.focused(), far_m)).epsilon(1e-10));
}

TEST_CASE("the view carries the lens of the scene", "[scene][property]") {
    Scene scene = scene_of({person("Odile", {})});
    scene.camera.f_number = 2.8;
    scene.lens.blades = 9;
    const CameraView perfect = camera_view(scene);
    CHECK(perfect.lens.blades == 9);
    CHECK(perfect.lens.f_number == 2.8);
    CHECK(perfect.lens.focus_m == 4.0);
    CHECK(perfect.lens.profile.spherical_dpt == 0);
    CHECK(perfect.lens.profile.field_curvature_dpt == 0);
    scene.lens.profile = optics::LensProfile{
        .widest_f_number = 1.2, .spherical_dpt = 0.1, .field_curvature_dpt = -0.05};
    CHECK(camera_view(scene).lens.profile.spherical_dpt == 0.1);
    CHECK(camera_view(scene).lens.profile.widest_f_number == 1.2);
}

TEST_CASE("reference points and solids stand where the person stands", "[scene][property]") {
    Person odile = person("Odile", {});
    const figures::ReferencePoints at_mark = reference_points(odile);
    const std::vector<figures::Capsule> solids_at_mark = solids(odile);
    odile.place = {.across_m = 2, .up_m = 0.5, .back_m = 3};
    const glm::dvec3 moved{2, 0.5, -3};
    const figures::ReferencePoints points = reference_points(odile);
    const auto same = [](const glm::dvec3& a, const glm::dvec3& b) {
        return glm::length(a - b) < rounding;
    };
    CHECK(same(points.left_eye_m, at_mark.left_eye_m + moved));
    CHECK(same(points.right_eye_m, at_mark.right_eye_m + moved));
    CHECK(same(points.nose_tip_m, at_mark.nose_tip_m + moved));
    CHECK(same(points.left_ear_m, at_mark.left_ear_m + moved));
    CHECK(same(points.right_ear_m, at_mark.right_ear_m + moved));
    CHECK(same(points.chin_m, at_mark.chin_m + moved));
    CHECK(same(points.crown_m, at_mark.crown_m + moved));
    const std::vector<figures::Capsule> moved_solids = solids(odile);
    REQUIRE(moved_solids.size() == solids_at_mark.size());
    for (std::size_t i = 0; i < moved_solids.size(); ++i) {
        CHECK(same(moved_solids[i].from_m, solids_at_mark[i].from_m + moved));
        CHECK(same(moved_solids[i].to_m, solids_at_mark[i].to_m + moved));
        CHECK(moved_solids[i].radius_m == solids_at_mark[i].radius_m);
    }
}

TEST_CASE("people are found by name", "[scene][property]") {
    const Scene scene = scene_of({person("Odile", {}), person("Bram", {})});
    REQUIRE(person_named(scene, "Bram") == &scene.people[1]);
    CHECK(person_named(scene, "bram") == nullptr);
}

}  // namespace backrow::scene
