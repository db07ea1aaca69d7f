#include "plan/advice/advice.h"
#include "plan/comparing/tradeoff.h"
#include "plan/faces/face_table.h"
#include "plan/odds/frame_model.h"
#include "posed.h"
#include "scene/judged_blur.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <vector>

using namespace backrow;
using namespace backrow::plan;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

/// Odile, who is focused on at 3 m, and Bram behind her.
scene::Scene stopped_to(double f_number, double bram_m = 3.1) {
    scene::Scene scene = level_scene({with_eye_at("Odile", 3.0), with_eye_at("Bram", bram_m, 0.6)});
    scene.camera.f_number = f_number;
    scene.judge = scene::Judge::sharpness;
    return scene;
}

FaceTable table_of(const scene::Scene& scene) {
    return face_table(scene, camera_view(scene));
}

double eyes_sharp(const scene::Scene& scene, optics::Grade grade) {
    const FrameModel model = frame_model(scene, camera_view(scene), grade);
    return static_cast<double>(
        std::ranges::count_if(model.faces, [](const VaryingFace& face) { return face.can_hold; }));
}

}  // namespace

// [DIFFRACTION], worked out apart: .705085/.403973 · 550 nm · 16 · (1 + 50/2950) = 15.619 µm; 1
// arcmin in an album is 13.963 µm on 36 mm. Tolerance: the last digit written down.
TEST_CASE("at f/16 nobody is crisp in an album, however well focused", "[plan][published]") {
    const scene::Scene scene = stopped_to(16);
    const FaceTable table = table_of(scene);
    CHECK_THAT(table.diffraction_mm, WithinAbs(0.015619, 1e-6));
    CHECK(table.faces[0].predicted_blur_um == 0);
    CHECK_THAT(table.faces[0].judged_blur.amount, WithinAbs(15.619 / 13.963, 1e-3));
    CHECK(table.faces[0].grade == optics::Grade::fine);
    for (const auto& zone : zones(scene, camera_view(scene), optics::Grade::crisp))
        CHECK_FALSE(zone);
    CHECK(eyes_sharp(scene, optics::Grade::crisp) == 0);
    CHECK(eyes_sharp(scene, optics::Grade::fine) == 2);
}

TEST_CASE("judged by blur alone f/16 is as sharp as its defocus", "[plan][property]") {
    scene::Scene scene = stopped_to(16);
    scene.judge = scene::Judge::blur;
    const FaceTable table = table_of(scene);
    CHECK(table.diffraction_mm == 0);
    CHECK(table.faces[0].judged_blur.amount == 0);
    CHECK(table.faces[0].grade == optics::Grade::crisp);
    CHECK(eyes_sharp(scene, optics::Grade::crisp) == 2);
}

// The zone is solved from what is left of the limit, the grade from the sum: they meet where the
// margin ends.
TEST_CASE("where a margin ends blur and diffraction together are at the limit",
          "[plan][property]") {
    for (const double f_number : {2.0, 8.0, 16.0}) {
        scene::Scene scene = stopped_to(f_number);
        const double back_m = table_of(scene).faces[0].margin.back_m;
        REQUIRE(std::isfinite(back_m));
        REQUIRE(back_m > 0);
        scene = stopped_to(f_number, 3.0 + back_m);
        CHECK_THAT(table_of(scene).faces[1].judged_blur.amount,
                   WithinRel(optics::fine_limit_arcmin, 1e-6));
    }
}

// Of the defocus that is fine in an album ∛(1 − (d/38.398 µm)³) is left, d = 0.9762 µm · N: .99996
// at f/2, .9973 at f/8, .977 at f/16. Tolerance: the digits written down.
TEST_CASE("from f/2 to f/8 diffraction takes less than half a hundredth of the room",
          "[plan][property]") {
    const auto room_dpt = [](const scene::Scene& scene) {
        return 1 / (3 - table_of(scene).faces[0].margin.front_m) - 1.0 / 3;
    };
    for (const double f_number : {2.0, 4.0, 8.0, 16.0}) {
        scene::Scene scene = stopped_to(f_number);
        const double with_dpt = room_dpt(scene);
        scene.judge = scene::Judge::blur;
        const double share = 0.9762 * f_number / 38.398;
        CHECK_THAT(with_dpt / room_dpt(scene),
                   WithinAbs(std::cbrt(1 - share * share * share), 1e-4));
        CHECK((with_dpt > 0.995 * room_dpt(scene)) == (f_number < 11));
    }
}

TEST_CASE("the zone of the table of depth of field is that of defocus alone", "[plan][property]") {
    scene::Scene scene = stopped_to(11);
    const optics::AxialRange with = table_of(scene).zone;
    scene.judge = scene::Judge::blur;
    const optics::AxialRange without = table_of(scene).zone;
    CHECK(with.near_m == without.near_m);
    CHECK(with.far_m == without.far_m);
}

TEST_CASE("stopped down far enough a group that was crisp is so no more", "[plan][property]") {
    scene::Scene scene = stopped_to(8);
    const auto answer = tradeoff(scene, tradeoff_range(scene, {}, {}), {});
    REQUIRE(answer.crisp.f_numbers);
    CHECK(answer.crisp.f_numbers->to < 16);
    CHECK(answer.crisp.f_numbers->from <= answer.crisp.f_numbers->to);
    REQUIRE(answer.fine.f_numbers);
    CHECK(answer.fine.f_numbers->to == 16);
    for (const TradeoffRow& row : answer.rows)
        if (std::abs(row.lens_to_mark_m - 3) < 1e-9)
            for (const TradeoffCell& cell : row.cells)
                CHECK((cell.grade == optics::Grade::crisp) ==
                      (cell.f_number >= answer.crisp.f_numbers->from &&
                       cell.f_number <= answer.crisp.f_numbers->to));
    scene.judge = scene::Judge::blur;
    CHECK(tradeoff(scene, tradeoff_range(scene, {}, {}), {}).crisp.f_numbers->to == 16);
}

// Worked out apart: between 3 m and 6 m, focused at 4 m, 0.211 mm/N of blur is crisp from f/15.1
// on, where diffraction alone is no more.
TEST_CASE("no opening makes a deep group crisp, though by blur alone a small one would",
          "[plan][property]") {
    scene::Scene scene = stopped_to(2, 6.0);
    AdviceWanted wanted{.grade = optics::Grade::crisp,
                        .lenses = {scene_lens(scene)},
                        .narrowest_f_number = 32,
                        .most_move_cm = 0,
                        .margin_cm = 0};
    const auto go_on = [](double /*share*/) { return true; };
    const auto none = advise(scene, wanted, go_on);
    REQUIRE(none);
    CHECK(none->answers.empty());
    REQUIRE(none->nearest);
    CHECK(none->nearest->view.lens.f_number < 22);
    scene.judge = scene::Judge::blur;
    const auto some = advise(scene, wanted, go_on);
    REQUIRE(some);
    REQUIRE_FALSE(some->answers.empty());
    CHECK(some->answers.front().view.lens.f_number > 11);
}
