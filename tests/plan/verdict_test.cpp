#include "plan/faces/verdict.h"

#include "posed.h"

#include "scene/model_shape.h"

#include <catch2/catch.hpp>

#include <memory>
#include <string>
#include <vector>

using namespace backrow;
using namespace backrow::plan;

namespace {

/// Two people one behind the other before a level camera at the height of their eyes.
scene::Scene one_behind_the_other(double aside_m) {
    scene::Scene scene =
        level_scene({somebody("Bram", {0, 0, 0}, 1.8), somebody("Odile", {aside_m, 0, 0.7}, 1.8)});
    scene.camera.lens_to_mark_m = 6;
    scene.camera.height_m = 1.68;
    scene.camera.level = true;
    scene.focus = scene::FocusAtDistance{6};
    return scene;
}

std::vector<Face> faces_of(const scene::Scene& scene) {
    return face_table(scene, camera_view(scene)).faces;
}

/// An upright board with its foot at the model's origin.
scene::Model board(double half_width, double height, const scene::FromMark& place) {
    const auto x = static_cast<float>(half_width);
    const auto y = static_cast<float>(height);
    return {.file = "models/board.obj",
            .place = place,
            .read = {std::make_shared<const scene::ModelShape>(scene::model_shape(
                {{{{-x, 0, 0}, {x, 0, 0}, {x, y, 0}}}, {{{-x, 0, 0}, {x, y, 0}, {-x, y, 0}}}}))}};
}

}  // namespace

TEST_CASE("a man wholly behind another is hidden, and it is said by whom", "[plan][property]") {
    const auto faces = faces_of(one_behind_the_other(0));
    CHECK(verdict_of(faces[0]) != Verdict::hidden);
    CHECK(hidden_by(faces[0]).empty());
    CHECK(faces[1].visible_fraction < 0.1);
    CHECK(verdict_of(faces[1]) == Verdict::hidden);
    CHECK(hidden_by(faces[1]) == std::vector<std::string>{"Bram"});
    CHECK_FALSE(is_seen(faces[1]));
}

TEST_CASE("half a metre aside nobody is hidden", "[plan][property]") {
    for (const Face& face : faces_of(one_behind_the_other(0.5)))
        CHECK(hidden_by(face).empty());
}

TEST_CASE("models hide faces as people do", "[plan][property]") {
    scene::Scene scene = one_behind_the_other(0.5);
    scene.models = {board(0.2, 1.9, {.across_m = 0, .up_m = 0, .back_m = -0.6})};
    auto faces = faces_of(scene);
    CHECK(verdict_of(faces[0]) == Verdict::hidden);
    CHECK(hidden_by(faces[0]) == std::vector<std::string>{"board"});
    CHECK(verdict_of(faces[1]) != Verdict::hidden);
    // Lower than the chin it is only in the way of the body.
    scene.models = {board(0.2, 1.4, {.across_m = 0, .up_m = 0, .back_m = -0.6})};
    CHECK(faces_of(scene)[0].visible_fraction == 1.0);
    // Behind them it hides nobody; nor does one whose file was never read.
    scene.models = {board(2, 3, {.across_m = 0, .up_m = 0, .back_m = 2}),
                    {.file = "models/unread.obj", .place = {.across_m = 0, .back_m = -0.6}}};
    CHECK(faces_of(scene)[0].visible_fraction == 1.0);
}

TEST_CASE("a turned and scaled model hides what it stands before", "[plan][property]") {
    scene::Scene scene = one_behind_the_other(0.5);
    scene::Model edge_on = board(0.2, 1.9, {.across_m = 0, .up_m = 0, .back_m = -0.6});
    edge_on.turn_deg = 90;
    scene.models = {edge_on};
    CHECK(faces_of(scene)[0].visible_fraction > 0.9);
    scene::Model small = board(0.1, 0.95, {.across_m = 0, .up_m = 0, .back_m = -0.6});
    small.scale = 2;
    scene.models = {small};
    CHECK(verdict_of(faces_of(scene)[0]) == Verdict::hidden);
}

TEST_CASE("a hidden face is hidden however its head is cut or blurred", "[plan][property]") {
    Face face;
    face.visible_fraction = 0.4;
    face.cropping.has_whole_head = false;
    face.grade = optics::Grade::lost;
    CHECK(verdict_of(face) == Verdict::hidden);
    face.visible_fraction = 0.6;
    CHECK(verdict_of(face) == Verdict::cut_off);
    face.cropping.has_whole_head = true;
    CHECK(verdict_of(face) == Verdict::lost);
    CHECK(std::string{to_word(Verdict::cut_off)} == "cut off");
}
