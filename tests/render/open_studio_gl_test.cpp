#include "render/studio/open_studio.h"

#include "../scene/fifty.h"

#include "test_stage.h"

#include "figures/measures/body_measures.h"
#include "render/faces/face_crop.h"
#include "render/passes/sample_choice.h"

#include <span>

using namespace backrow;
using namespace backrow::render;

namespace {

// Two people, one behind the other's shoulder, and a wall.
scene::Scene two_people() {
    scene::Scene scene;
    scene.camera = scene::fifty_wide_open();
    for (const auto& [name, place] :
         {std::pair{"Odile", scene::FromMark{}}, std::pair{"Bram", scene::FromMark{0.5, 0, 0.8}}}) {
        scene::Person person;
        person.name = name;
        person.place = place;
        person.measures = figures::body_measures(1.70, std::nullopt);
        scene.people.push_back(person);
    }
    scene.camera.lens_to_mark_m = 3.0;
    scene.camera.f_number = 2.0;
    scene.focus = scene::FocusOnPerson{"Odile"};
    scene.setting.backdrops.push_back({.kind = setting::BackdropKind::wall, .back_m = 3});
    return scene;
}

Image<Rgb8> picture_of(const stage::Stage& stage, const scene::CameraView& view,
                       const CropRect& crop) {
    const auto open = OpenStudio::make(stage, Look::lit, view.position_m, carry_on);
    REQUIRE(open);
    const auto samples = open->samples_for(view, crop, Quality::draft, 8);
    CHECK(samples.coarse.size() == 8);
    auto picture = make_picture(open->studio(0), view, crop, samples, KeepLinear::no, carry_on);
    REQUIRE(picture);
    CHECK_NOTHROW(require_no_gl_error());
    return std::move(picture->developed);
}

}  // namespace

// Other frames may ask for more of everything, never for something else. Here the other frame needs
// nothing that this one has not: the stages are equal, and so must be every pixel.
TEST_CASE("a frame of a strip is the preview's picture, pixel for pixel", "[render][property]") {
    scene::Scene scene = two_people();
    const auto view = camera_view(scene);
    scene.camera.f_number = 5.6;
    const std::vector<scene::CameraView> views{view, camera_view(scene)};
    const auto alone = stage::build_stage(scene, view);
    const auto shared = stage::build_stage(scene, views);
    REQUIRE(alone);
    REQUIRE(shared);
    const auto crop = whole_frame(view, 96);
    CHECK(crop.height_texels == 64);
    CHECK(picture_of(*alone, view, crop).pixels() == picture_of(*shared, view, crop).pixels());
}

TEST_CASE("work that nobody waits for any more opens no studio", "[render][property]") {
    const scene::Scene scene = two_people();
    const auto view = camera_view(scene);
    const auto stage = stage::build_stage(scene, view);
    REQUIRE(stage);
    const auto open =
        OpenStudio::make(*stage, Look::lit, view.position_m, [](double) { return false; });
    REQUIRE_FALSE(open);
    CHECK(std::holds_alternative<Stopped>(open.error()));
}

TEST_CASE("a face's detail has the face in its middle and stays within the frame",
          "[render][property]") {
    scene::Scene scene = two_people();
    scene.camera.aim = scene::AimAtPerson{"Odile"};
    const auto view = camera_view(scene);
    const auto face = face_crop(view, scene.people[0], 0);
    const auto detail = face_detail(view, scene.people[0], 400, 300, 0.5);
    REQUIRE(face);
    REQUIRE(detail);
    CHECK(detail->width_px == 800);
    CHECK(detail->height_px == 600);
    // On whole pixels: half a pixel and the half that an odd length leaves.
    CHECK(std::abs(detail->left_px + 400 - (face->left_px + face->width_px / 2)) <= 1);
    CHECK(std::abs(detail->top_px + 300 - (face->top_px + face->height_px / 2)) <= 1);

    scene.camera.aim = scene::FromMark{0.5, 0.9, 0};
    const auto aside = camera_view(scene);
    const auto near_the_corner = face_detail(aside, scene.people[0], 1600, 1000, 0.5);
    REQUIRE(near_the_corner);
    CHECK(near_the_corner->left_px == 0);
    CHECK(near_the_corner->top_px == 0);
    CHECK(near_the_corner->width_px == 3200);
}
