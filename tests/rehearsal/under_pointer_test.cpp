#include "rehearsal/hands/under_pointer.h"

#include "../scene/fifty.h"

#include "../plan/posed.h"
#include "demo_scenes.h"
#include "trio.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace backrow;
using namespace backrow::rehearsal;
using Catch::Matchers::WithinAbs;

namespace {

struct Drawn {
    scene::Scene scene = scene::before_fifty();
    scene::CameraView view;
    plan::FaceTable table;
    plan::FromAbove drawing;

    explicit Drawn(scene::Scene drawn)
        : scene{std::move(drawn)}, view{camera_view(scene)}, table{plan::face_table(scene, view)},
          drawing{from_above(scene, view, table)} {}
};

}  // namespace

TEST_CASE("a pointer finds whoever's head is nearest, by head or shoulder",
          "[rehearsal][property]") {
    const Drawn choir{demo_scene("choir")};
    for (std::size_t i = 0; i < choir.drawing.people.size(); ++i) {
        CHECK(person_at(choir.drawing, choir.drawing.people[i].head, 0) == i);
        CHECK(person_at(choir.drawing, choir.drawing.people[i].place, 0.05) == i);
    }
    // Yuki at picture left of the front row: by the outside of an arm, not from beyond it.
    const plan::PersonFromAbove& yuki = choir.drawing.people[0];
    const plan::DrawingPoint arm{.x_m = yuki.shoulders.x_m - yuki.half_breadth_m + 0.01,
                                 .y_m = yuki.shoulders.y_m};
    CHECK(person_at(choir.drawing, arm, 0) == 0u);
    const plan::DrawingPoint beside{.x_m = arm.x_m - 0.05, .y_m = arm.y_m};
    CHECK_FALSE(person_at(choir.drawing, beside, 0));
    CHECK(person_at(choir.drawing, beside, 0.1) == 0u);
}

TEST_CASE("the lens and the plane of focus lie where they are drawn, as far as the frame goes",
          "[rehearsal][property]") {
    const Drawn choir{demo_scene("choir")};
    CHECK(is_on_lens(choir.drawing, {0.1, -9.35}, 0.15));
    CHECK_FALSE(is_on_lens(choir.drawing, {0, -5}, 0.15));
    const double focus_back_m = choir.drawing.plane_of_focus->from.y_m;
    CHECK(is_on_plane_of_focus(choir.drawing, {1.5, focus_back_m + 0.1}, 0.15));
    CHECK_FALSE(is_on_plane_of_focus(choir.drawing, {0, -5}, 0.15));
    CHECK_FALSE(is_on_plane_of_focus(choir.drawing, {40, focus_back_m}, 0.15));
}

// Ana stands 10 cm behind J. B., so that their heads overlap in profile.
TEST_CASE("in profile the head whose middle is nearest is found", "[rehearsal][property]") {
    const scene::Scene scene = trio();
    const scene::CameraView view = camera_view(scene);
    const plan::FromTheSide drawing = from_the_side(scene, view, plan::face_table(scene, view));
    for (std::size_t i = 0; i < drawing.heads.size(); ++i) {
        const plan::HeadFromTheSide& head = drawing.heads[i];
        const plan::DrawingPoint middle{(head.nearer_eye.x_m + head.farther_ear.x_m) / 2,
                                        (head.chin.y_m + head.crown.y_m) / 2};
        CHECK(head_at(drawing, middle, 0) == i);
        const plan::DrawingPoint below{middle.x_m, middle.y_m - head.height_m / 2 - 0.02};
        CHECK_FALSE(head_at(drawing, below, 0));
        CHECK(head_at(drawing, below, 0.1));
    }
}

TEST_CASE("where somebody's eye is, a place is graded as that face", "[rehearsal][property]") {
    const Drawn choir{demo_scene("choir", {"viewing.use=\"pixels\""})};
    for (const plan::Face& face : choir.table.faces) {
        const PlaceSeen place = place_seen(choir.scene, choir.view, face.eye.up_m,
                                           {face.eye.across_m, face.eye.back_m});
        CHECK_THAT(place.axial_m, WithinAbs(face.axial_m, 1e-12));
        CHECK_THAT(place.blur_px, WithinAbs(face.predicted_blur_px, 1e-9));
        CHECK(place.grade == face.grade);
        CHECK(place.in_frame);
        REQUIRE(place.fine);
        CHECK((face.axial_m >= place.fine->near_m && face.axial_m <= place.fine->far_m) ==
              (face.grade <= optics::Grade::fine));
    }
}

// By hand: 50 mm focused at 3 m, v = 50·3000/2950 mm; 4 m away the frame is 4·36/v wide.
TEST_CASE("a place tells how far it is and how wide the frame is there", "[rehearsal][property]") {
    const Drawn one{plan::level_scene({plan::somebody("Odile", {})})};
    const double v_mm = 50 * 3000.0 / 2950;
    const PlaceSeen place = place_seen(one.scene, one.view, 1.6, {3, 1});
    CHECK_THAT(place.axial_m, WithinAbs(4, 1e-12));
    CHECK_THAT(place.range_m, WithinAbs(5, 1e-12));
    CHECK_THAT(place.frame_width_m, WithinAbs(4 * 36 / v_mm, 1e-9));
    CHECK_THAT(place.frame_height_m, WithinAbs(4 * 24 / v_mm, 1e-9));
    CHECK_FALSE(place.in_frame);
    const PlaceSeen behind = place_seen(one.scene, one.view, 1.6, {0, -5});
    CHECK(behind.axial_m < 0);
    CHECK(behind.grade == optics::Grade::lost);
    CHECK_FALSE(behind.fine);
}
