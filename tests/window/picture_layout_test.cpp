#include "window/pictures/picture_layout.h"

#include "two_people.h"

using namespace backrow;
using namespace backrow::window;

namespace {

const Area room{{10, 20}, {610, 320}};

}  // namespace

// 6000 × 4000 pixels into 600 × 300 units: the height decides, and 75 units are free at each side.
TEST_CASE("the whole picture keeps its shape in the middle of its room", "[window][property]") {
    const auto view = camera_view(two_people());
    REQUIRE(view.width_px == 6000);
    REQUIRE(view.height_px == 4000);
    const PictureLayout layout = lay_picture({}, view, room, 2);
    CHECK(layout.area().least.x == Approx(85));
    CHECK(layout.area().most.x == Approx(535));
    CHECK(layout.area().least.y == Approx(20));
    CHECK(layout.area().most.y == Approx(320));
    CHECK(layout.crop.width_px == 6000);
    CHECK(layout.crop.width_texels == 900);
    CHECK(layout.crop.height_texels == 600);
    CHECK(layout.screen(3000, 2000).x == Approx(310));
    CHECK(layout.screen(3000, 2000).y == Approx(170));
}

TEST_CASE("at full size a texel of the screen is a pixel of the camera, and the picture is dragged "
          "under the pointer",
          "[window][property]") {
    const auto view = camera_view(two_people());
    const PictureLook look{.is_full_size = true, .middle = {3000, 1500}};
    for (const double texels_per_unit : {1.0, 2.0}) {
        const PictureLayout layout = lay_picture(look, view, room, texels_per_unit);
        CHECK(layout.crop.width_px == layout.crop.width_texels);
        CHECK(layout.crop.height_px == layout.crop.height_texels);
        CHECK(layout.crop.width_texels == 600 * texels_per_unit);
        CHECK(layout.crop.left_px + layout.crop.width_px / 2 == Approx(3000).margin(1));
        // What was under the pointer goes where the pointer goes.
        const ImVec2 before = layout.screen(2950, 1480);
        const PictureLayout after =
            lay_picture(dragged(look, layout, {40, -30}), view, room, texels_per_unit);
        CHECK(after.screen(2950, 1480).x == Approx(before.x + 40).margin(1));
        CHECK(after.screen(2950, 1480).y == Approx(before.y - 30).margin(1));
    }
}

TEST_CASE("of two faces under the pointer the nearer one is meant", "[window][property]") {
    scene::Scene scene = two_people();
    scene.people[1].place.across_m = 0.05;  // right behind her
    const auto view = camera_view(scene);
    const plan::FaceTable table = plan::face_table(scene, view);
    const PictureLayout layout = lay_picture({}, view, room, 1);
    const auto areas = face_areas(layout, view, scene);
    REQUIRE(areas.size() == 2);
    REQUIRE(areas[0]);
    REQUIRE(areas[1]);
    const ImVec2 odile{(areas[0]->least.x + areas[0]->most.x) / 2,
                       (areas[0]->least.y + areas[0]->most.y) / 2};
    REQUIRE(areas[1]->contains(odile));
    CHECK(face_at(areas, table, odile) == 0u);
    CHECK_FALSE(face_at(areas, table, room.least));

    scene.people[1].place.back_m = -30;  // behind the lens
    const auto without = face_areas(layout, view, scene);
    CHECK_FALSE(without[1]);
    CHECK(face_at(without, table, odile) == 0u);
}
