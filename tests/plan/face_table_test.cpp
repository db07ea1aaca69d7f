#include "plan/faces/face_table.h"

#include "posed.h"

#include "base/units.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <utility>
#include <vector>

using namespace backrow;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;
using plan::somebody;
using plan::with_eye_at;

namespace {

scene::Scene scene_of(std::vector<scene::Person> people) {
    scene::Scene scene = plan::level_scene(std::move(people));
    scene.title = "Test";
    return scene;
}

plan::FaceTable table_of(const scene::Scene& scene) {
    return plan::face_table(scene, scene::camera_view(scene));
}

plan::Face only_face(const scene::Scene& scene) {
    const auto table = table_of(scene);
    REQUIRE(table.faces.size() == 1);
    return table.faces.front();
}

}  // namespace

// [JACOBSON] section 4, worked out apart: 50 mm f/1.2 focused at 3000 mm blurs 3300 mm to 0.06420
// mm. On 6000 pixels over 36 mm that is 10.70 px; in an album (30 cm at 40 cm) 0.535 mm, 4.598 arc
// minutes. Tolerance: half of the blur's last printed digit, carried through.
TEST_CASE("a face thirty centimetres behind the focus blurs by the closed form",
          "[plan][published]") {
    const auto face = only_face(scene_of({with_eye_at("Odile", 3.3)}));
    CHECK_THAT(face.axial_m, WithinRel(3.3, 1e-12));
    CHECK_THAT(face.offset_mm, WithinAbs(300, 1e-9));
    CHECK_THAT(face.predicted_blur_um, WithinAbs(64.20, 0.005));
    CHECK_THAT(face.predicted_blur_px, WithinAbs(10.700, 0.001));
    REQUIRE(face.judged_blur.unit == optics::BlurUnit::arcmin);
    CHECK_THAT(face.judged_blur.amount, WithinAbs(4.598, 0.001));
    CHECK(face.grade == optics::Grade::soft);
}

TEST_CASE("whoever is focused on has no blur", "[plan][property]") {
    auto scene =
        scene_of({somebody("Odile", {-0.4, 0, 0.1}), somebody("Bram", {0.5, 0, 0.7}, 1.83)});
    scene.camera.level = false;
    scene.camera.aim = scene::AimAtGroup{};
    scene.people[1].pose.turn_deg = 25;
    for (const std::size_t who : {0u, 1u}) {
        scene.focus = scene::FocusOnPerson{scene.people[who].name};
        const auto face = table_of(scene).faces[who];
        CHECK(face.offset_mm == 0.0);
        CHECK(face.predicted_blur_um == 0.0);
        CHECK(face.predicted_blur_px == 0.0);
        CHECK(face.judged_blur.amount == 0.0);
        CHECK(face.grade == optics::Grade::crisp);
    }
}

TEST_CASE("balanced focus blurs the nearest and the farthest alike", "[plan][property]") {
    auto scene = scene_of({with_eye_at("Near", 2.8, -0.5), with_eye_at("Far", 3.4, 0.5)});
    scene.focus = scene::FocusBalanced{};
    const auto table = table_of(scene);
    // 2·2.8·3.4/(2.8 + 3.4) = 3.070968 m [NAVEDTRA14209].
    CHECK_THAT(table.focus_m, WithinAbs(3.070968, 5e-7));
    CHECK_THAT(table.faces[0].predicted_blur_px, WithinRel(table.faces[1].predicted_blur_px, 1e-9));
    CHECK(table.faces[0].offset_mm < 0);
    CHECK(table.faces[1].offset_mm > 0);
}

TEST_CASE("how the picture is looked at decides the grade", "[plan][property]") {
    // f/4: 0.06420 · 1.2/4 = 0.01926 mm: album 1.38', phone 0.86', 3.21 px.
    auto scene = scene_of({with_eye_at("Odile", 3.3)});
    scene.camera.f_number = 4;
    scene.viewing = optics::album_viewing;
    CHECK(only_face(scene).grade == optics::Grade::fine);
    scene.viewing = optics::phone_viewing;
    CHECK(only_face(scene).grade == optics::Grade::crisp);
    scene.viewing = scene::PixelViewing{};
    CHECK(only_face(scene).grade == optics::Grade::soft);
    CHECK(only_face(scene).judged_blur.unit == optics::BlurUnit::px);
    scene.viewing = optics::PrintViewing{.long_side_cm = 600, .distance_cm = 60};
    CHECK(only_face(scene).grade == optics::Grade::lost);
}

TEST_CASE("at the ends of the zone a face is just fine", "[plan][property]") {
    auto scene = scene_of({somebody("Odile", {})});
    const auto blur_at_px = [&](double axial_m) {
        auto there = scene;
        there.people = {with_eye_at("Odile", axial_m)};
        return only_face(there);
    };
    // The eye is brought to its place through a subtraction of metres: 1e-9 of a blur of 3 px.
    scene.viewing = scene::PixelViewing{};
    const auto pixels = table_of(scene).zone;
    CHECK_THAT(blur_at_px(pixels.near_m).predicted_blur_px, WithinRel(3.0, 1e-9));
    CHECK_THAT(blur_at_px(pixels.far_m).predicted_blur_px, WithinRel(3.0, 1e-9));
    scene.viewing = optics::wall_viewing;
    const auto wall = table_of(scene).zone;
    CHECK_THAT(blur_at_px(wall.near_m).judged_blur.amount, WithinRel(2.75, 1e-9));
    CHECK_THAT(blur_at_px(wall.far_m).judged_blur.amount, WithinRel(2.75, 1e-9));
}

// Of one name, for names give faces: chins differ by fractions of a millimetre.
TEST_CASE("two alike on either side of the axis fare alike", "[plan][property]") {
    const auto table =
        table_of(scene_of({somebody("Twin", {-0.6, 0, 0.2}), somebody("Twin", {0.6, 0, 0.2})}));
    const auto& left = table.faces[0];
    const auto& right = table.faces[1];
    CHECK(left.eye.across_m < 0);
    CHECK(right.eye.across_m > 0);
    CHECK_THAT(left.axial_m, WithinRel(right.axial_m, 1e-12));
    CHECK_THAT(left.predicted_blur_px, WithinRel(right.predicted_blur_px, 1e-9));
    CHECK_THAT(left.face_height_px, WithinRel(right.face_height_px, 1e-9));
    CHECK(left.visible_fraction == 1.0);
    CHECK(right.visible_fraction == 1.0);
    CHECK(left.cropping.has_whole_head);
    CHECK(right.cropping.has_whole_head);
}

TEST_CASE("somebody behind a taller person is hidden, somebody behind a child is not",
          "[plan][property]") {
    const auto tall_in_front = table_of(
        scene_of({somebody("Tall", {0, 0, 0}, 1.95), somebody("Short", {0, 0, 0.7}, 1.6)}));
    CHECK(tall_in_front.faces[0].visible_fraction == 1.0);
    CHECK(tall_in_front.faces[1].visible_fraction < 0.1);

    const auto child_in_front = table_of(
        scene_of({somebody("Child", {0, 0, 0}, 1.1), somebody("Tall", {0, 0, 0.7}, 1.95)}));
    CHECK(child_in_front.faces[0].visible_fraction == 1.0);
    CHECK(child_in_front.faces[1].visible_fraction == 1.0);
}

TEST_CASE("stepping aside from behind somebody brings the face out", "[plan][property]") {
    double before = -1;
    for (const double across_m : {0.0, 0.12, 0.24, 0.5}) {
        const auto table = table_of(scene_of(
            {somebody("Front", {0, 0, 0}, 1.8), somebody("Behind", {across_m, 0, 0.7}, 1.8)}));
        CHECK(table.faces[1].visible_fraction >= before);
        before = table.faces[1].visible_fraction;
    }
    CHECK(before == 1.0);
}

// Chin to crown on the sensor is the head's height times v/d: v = 50·3000/2950 = 50.847 mm. The
// chin stands at most 0.12 m before the crown; with the axis near the face's middle half of that
// share of 3 m counts, 2 %, and as much for the crown standing behind the eye.
TEST_CASE("a face is as tall as the lens draws it", "[plan][property]") {
    const auto person = with_eye_at("Odile", 3.0);
    const auto face = only_face(scene_of({person}));
    const double expected_px = person.measures.head_height_m / 3.0 * 50.847 * 6000 / 36;
    CHECK_THAT(face.face_height_px, WithinRel(expected_px, 0.04));
}

TEST_CASE("a head cut by the edge of the picture is not in frame", "[plan][property]") {
    // The picture is 3 m · 36/50.85 = 2.12 m wide in the plane of focus: half is 1.06 m.
    CHECK(only_face(scene_of({with_eye_at("Odile", 3.0, 0.9)})).cropping.has_whole_head);
    CHECK_FALSE(only_face(scene_of({with_eye_at("Odile", 3.0, 1.06)})).cropping.has_whole_head);
    CHECK_FALSE(only_face(scene_of({with_eye_at("Odile", 3.0, -1.06)})).cropping.has_whole_head);
    CHECK_FALSE(only_face(scene_of({with_eye_at("Odile", 3.0, 4)})).cropping.has_whole_head);
}

TEST_CASE("whoever stands behind the camera is lost, in numbers that are numbers",
          "[plan][property]") {
    const auto face = only_face(scene_of({with_eye_at("Odile", -0.5)}));
    CHECK_FALSE(face.cropping.has_whole_head);
    CHECK(face.grade == optics::Grade::lost);
    CHECK(face.visible_fraction == 0.0);
    CHECK(face.face_height_px == 0.0);
    CHECK_FALSE(std::isnan(face.predicted_blur_px));
    CHECK_FALSE(std::isnan(face.offset_mm));
    CHECK(face.offset_mm < 0);
}

TEST_CASE("holding the camera upright changes the frame, not the sharpness", "[plan][property]") {
    auto scene = scene_of({with_eye_at("Odile", 3.3)});
    const auto across = only_face(scene);
    scene.camera.orientation = scene::Orientation::portrait;
    const auto upright = only_face(scene);
    CHECK_THAT(upright.predicted_blur_px, WithinRel(across.predicted_blur_px, 1e-12));
    CHECK_THAT(upright.judged_blur.amount, WithinRel(across.judged_blur.amount, 1e-12));
    CHECK_THAT(upright.face_height_px, WithinRel(across.face_height_px, 1e-12));
}

TEST_CASE("a lens with a curved field is worse in the corner than in the middle",
          "[plan][property]") {
    auto scene = scene_of({with_eye_at("Middle", 3.0, 0), with_eye_at("Side", 3.0, 0.9)});
    const auto perfect = table_of(scene);
    // A millionth of a pixel for the subtraction of metres that put the eyes in the plane.
    CHECK_THAT(perfect.faces[0].predicted_blur_px, WithinAbs(0, 1e-6));
    CHECK_THAT(perfect.faces[1].predicted_blur_px, WithinAbs(0, 1e-6));

    scene.lens.profile = optics::LensProfile{.widest_f_number = 1.2, .field_curvature_dpt = 0.1};
    const auto curved = table_of(scene);
    CHECK(curved.faces[0].predicted_blur_px < 0.1);
    CHECK(curved.faces[1].predicted_blur_px > 1.0);

    scene.lens.profile = optics::LensProfile{.widest_f_number = 1.2, .spherical_dpt = 0.05};
    const auto spherical = table_of(scene);
    CHECK(spherical.faces[0].predicted_blur_px > 1.0);
    CHECK_THAT(spherical.faces[0].predicted_blur_px,
               WithinRel(spherical.faces[1].predicted_blur_px, 1e-6));
}

TEST_CASE("faces stand in the order of the scene", "[plan][property]") {
    const auto table = table_of(scene_of(
        {somebody("Zo\xc3\xab", {0.5, 0, 1}), somebody("Ana", {-0.5, 0, 0}), somebody("Mo", {})}));
    REQUIRE(table.faces.size() == 3);
    CHECK(table.title == "Test");
    CHECK(table.faces[0].name == "Zo\xc3\xab");
    CHECK(table.faces[1].name == "Ana");
    CHECK(table.faces[2].name == "Mo");
}

TEST_CASE("who is fine has margin and who is not has none", "[plan][property]") {
    std::vector<scene::Person> people;
    for (int i = 0; i < 20; ++i)
        people.push_back(with_eye_at("Odile", 2.7 + 0.03 * i));
    const auto table = table_of(scene_of(std::move(people)));
    int fine = 0;
    for (const plan::Face& face : table.faces) {
        const bool is_fine = face.grade <= optics::Grade::fine;
        CHECK((face.margin.front_m + face.margin.back_m > 0) == is_fine);
        fine += is_fine ? 1 : 0;
        if (is_fine) {
            // On the way forward and back the zone of the perfect lens ends, 1e-9 for the
            // subtraction of metres that brought the eye to its place.
            CHECK_THAT(face.axial_m - face.margin.front_m, WithinRel(table.zone.near_m, 1e-9));
            CHECK_THAT(face.axial_m + face.margin.back_m, WithinRel(table.zone.far_m, 1e-9));
        }
    }
    CHECK(fine > 2);
    CHECK(fine < 20);
}

// H = f²/(N c) + f [RAY2002], from memory; an album of 30 cm from 36 mm seen at 40 cm allows
// 2·400·tan(2.75'/2)/8.3333 = 0.038397 mm: 2500/(1.2·0.038397) + 50 = 54 307 mm. Tolerance: half of
// the last digit of 0.038397, which is 1 in 77 000.
TEST_CASE("the hyperfocal distance is that of what is fine", "[plan][from-memory]") {
    const auto table = table_of(scene_of({with_eye_at("Odile", 3.0)}));
    CHECK_THAT(table.hyperfocal_m, WithinRel(54.307, 1.0 / 70'000));
}

// [ANSUR2]: half of all men have heads of 200 mm from brow to nape and less than that from nose to
// ear; the tragus lies behind the cornea, and the nose before it.
TEST_CASE("a head reaches from the nose before the eyes to the ears behind them",
          "[plan][property]") {
    const auto face = only_face(scene_of({with_eye_at("Odile", 3.0)}));
    CHECK(face.head_near_mm < 0);
    CHECK(face.head_near_mm > -60);
    CHECK(face.head_far_mm > 40);
    CHECK(face.head_far_mm - face.head_near_mm < 200);
}

// Seen from the side the nose and the eyes lie between the ears.
TEST_CASE("a head in profile reaches from ear to ear", "[plan][property]") {
    auto person = with_eye_at("Odile", 3.0);
    person.pose.turn_deg = 90;
    const auto scene = scene_of({person});
    const auto view = scene::camera_view(scene);
    const auto points = scene::reference_points(person);
    const auto face = only_face(scene);
    CHECK_THAT(face.head_near_mm,
               WithinRel(mm_from_m(axial_m(view, points.right_ear_m) - 3), 1e-9));
    CHECK_THAT(face.head_far_mm, WithinRel(mm_from_m(axial_m(view, points.left_ear_m) - 3), 1e-9));
}

// Between the eye and the ear behind it there is a distance by which the head can be sunk into the
// far end of the zone: the eye holds, the ear does not.
TEST_CASE("with the eye at the end of the zone only a part of the head is fine",
          "[plan][property]") {
    const auto middle = only_face(scene_of({with_eye_at("Odile", 3.0)}));
    CHECK(middle.whole_head_fine);
    const double room_m = middle.margin.back_m - m_from_mm(middle.head_far_mm);
    REQUIRE(room_m > 0);
    const auto inside = only_face(scene_of({with_eye_at("Odile", 3.0 + room_m - 1e-6)}));
    CHECK(inside.whole_head_fine);
    const auto outside = only_face(scene_of({with_eye_at("Odile", 3.0 + room_m + 1e-6)}));
    CHECK_FALSE(outside.whole_head_fine);
    CHECK(outside.grade == optics::Grade::fine);
}

TEST_CASE("on a difficult lens the faces at the edge rule, and stopping down mends them",
          "[plan][property]") {
    scene::Scene scene =
        plan::level_scene({with_eye_at("Odile", 3.0), with_eye_at("Bram", 3.0, 0.9)});
    scene.focus = scene::FocusOnPerson{"Odile"};
    scene.lens.profile = optics::LensProfile{.widest_f_number = 1.4,
                                             .spherical_dpt = 0.03,
                                             .field_curvature_dpt = -0.03,
                                             .astigmatism_dpt = 0.03,
                                             .coma_dpt = 0.02};
    const auto faces_at = [&](double f_number) {
        scene.camera.f_number = f_number;
        return plan::face_table(scene, camera_view(scene)).faces;
    };
    const auto wide = faces_at(1.4), stopped = faces_at(4);
    CHECK(wide[1].predicted_blur_px > 1.5 * wide[0].predicted_blur_px);
    // The best focus is that of the blur in millimetres, which grows a little with the image
    // distance.
    CHECK(wide[0].blur_defocus_px < 0.01);
    CHECK(wide[1].blur_defocus_px > 1);
    CHECK(wide[1].predicted_blur_px ==
          Approx(std::hypot(wide[1].blur_defocus_px, wide[1].blur_lens_px)));
    CHECK(stopped[1].predicted_blur_px < wide[1].predicted_blur_px / 2);
}

TEST_CASE("a camera that focuses too near leaves whom it is focused on behind its focus",
          "[plan][property]") {
    scene::Scene scene = plan::level_scene({with_eye_at("Odile", 3.0)});
    scene.focus = scene::FocusOnPerson{"Odile"};
    scene.lens.profile = optics::LensProfile{.widest_f_number = 1.4, .focus_offset_dpt = 0.01};
    const scene::CameraView view = camera_view(scene);
    CHECK(view.lens.focus_m == Approx(3.0));
    const auto face = plan::face_table(scene, view).faces.front();
    // One hundredth of a dioptre through the opening: v·D·0.01.
    const double expected_mm =
        view.image_distance_mm() * view.lens.focal_length_mm / view.lens.f_number / 1000 * 0.01;
    CHECK(face.predicted_blur_um == Approx(1000 * expected_mm));
    CHECK(face.margin.front_m > face.margin.back_m);
}
