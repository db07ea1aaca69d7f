#include "plan/comparing/tradeoff.h"

#include "posed.h"
#include "scene/clearance.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <vector>

using namespace backrow;
using namespace backrow::plan;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

scene::Scene two_deep() {
    return level_scene({with_eye_at("Odile", 3.0), with_eye_at("Bram", 4.2, 0.6)});
}

Tradeoff answer_to(const scene::Scene& scene, const std::vector<double>& lenses_mm = {}) {
    std::vector<CarriedLens> lenses;
    for (const double focal_length_mm : lenses_mm)
        lenses.push_back({.focal_length_mm = focal_length_mm, .widest_f_number = 0});
    return tradeoff(scene, tradeoff_range(scene, {}, lenses), lenses);
}

const TradeoffRow& row_at(const Tradeoff& answer, double lens_to_mark_m) {
    const auto row = std::ranges::find_if(answer.rows, [&](const TradeoffRow& each) {
        return std::abs(each.lens_to_mark_m - lens_to_mark_m) < 1e-9;
    });
    REQUIRE(row != answer.rows.end());
    return *row;
}

}  // namespace

// [JACOBSON] section 4, worked out apart: 50 mm f/1.2, focus 3 m, Bram at 4.2 m: 0.201776 mm; a
// metre further back, focus 4 m and Bram at 5.2 m: 3/24.648 = 0.121714 mm. The sky: 2.5/(1.2·2.95)
// = 0.706215 and 2.5/(1.2·3.95) = 0.527426 mm of 24 mm, 2.94256 % and 2.19761 %.
// Tolerance: the last digit written down.
TEST_CASE("a step back takes the focus along and blurs the last row and the sky less",
          "[plan][published]") {
    const Tradeoff answer = answer_to(two_deep());
    const TradeoffCell& here = answer.now.cells.front();
    CHECK(here.worst.person == 1);
    CHECK_THAT(here.worst.blur_mm, WithinAbs(0.201776, 1e-6));
    CHECK_THAT(here.background_percent, WithinAbs(2.94256, 1e-5));
    const TradeoffRow& back = row_at(answer, 4.0);
    CHECK_THAT(back.focus_m, WithinRel(4.0, 1e-9));
    CHECK_THAT(back.cells.front().worst.blur_mm, WithinAbs(0.121714, 1e-6));
    CHECK_THAT(back.cells.front().background_percent, WithinAbs(2.19761, 1e-5));
}

// D = f/N and all else stays: exact but for rounding.
TEST_CASE("stopping down divides every blur by the f-number", "[plan][property]") {
    for (const TradeoffRow& row : answer_to(two_deep()).rows)
        for (const TradeoffCell& cell : row.cells) {
            const TradeoffCell& first = row.cells.front();
            CHECK_THAT(cell.worst.blur_mm * cell.f_number,
                       WithinRel(first.worst.blur_mm * first.f_number, 1e-9));
            CHECK_THAT(cell.background_percent * cell.f_number,
                       WithinRel(first.background_percent * first.f_number, 1e-9));
        }
}

TEST_CASE("a grade holds from where it is said to hold and not before", "[plan][property]") {
    scene::Scene scene = two_deep();
    scene.camera.f_number = 2.8;
    const Tradeoff answer = answer_to(scene);
    REQUIRE(answer.fine.f_numbers);
    REQUIRE(answer.fine.from_m);
    for (const TradeoffCell& cell : row_at(answer, 3.0).cells)
        CHECK((cell.grade <= optics::Grade::fine) ==
              (cell.f_number >= answer.fine.f_numbers->from));
    const auto at = [&](double lens_to_mark_m) {
        scene.camera.lens_to_mark_m = lens_to_mark_m;
        scene.focus = scene::FocusAtDistance{lens_to_mark_m};
        return answer_to(scene).now.cells.front().grade;
    };
    CHECK(at(*answer.fine.from_m) <= optics::Grade::fine);
    CHECK(at(*answer.fine.from_m - 0.002) > optics::Grade::fine);
    CHECK_FALSE(answer.fine.everywhere);
    CHECK_FALSE(answer.fine.nowhere);
}

// One face in the plane of focus is magnified f/(s − f): 50 mm at 3 m is 100 mm at 6 m, 25 mm at
// 1.5 m. Tolerance: how closely the distance is looked for.
TEST_CASE("twice the lens from twice as far shows the face as large", "[plan][property]") {
    const Tradeoff answer = answer_to(level_scene({with_eye_at("Odile", 3.0)}), {100, 25});
    REQUIRE(answer.lenses.size() == 3);
    for (const FramingLens& lens : answer.lenses) {
        REQUIRE(lens.lens_to_mark_m);
        CHECK_THAT(*lens.lens_to_mark_m, WithinAbs(3.0 * lens.focal_length_mm / 50, 1e-4));
    }
}

TEST_CASE("a trade-off that sends the photographer back has them look behind", "[plan][property]") {
    CHECK(answer_to(level_scene({with_eye_at("Odile", 3.0)}), {100}).cautions ==
          std::vector{Caution::photographer_steps_back});
    // One face in the plane of focus is crisp wherever the camera stands, and 25 mm come nearer.
    CHECK(answer_to(level_scene({with_eye_at("Odile", 3.0)}), {25}).cautions.empty());
}

TEST_CASE("a lens carried holds faces no wider than it opens", "[plan][property]") {
    const scene::Scene scene = level_scene({with_eye_at("Odile", 3.0)});
    const std::vector<CarriedLens> lenses{{.focal_length_mm = 100, .widest_f_number = 2.8}};
    const Tradeoff answer = tradeoff(scene, tradeoff_range(scene, {}, lenses), lenses);
    REQUIRE(answer.lenses.size() == 2);
    CHECK(answer.lenses[0].is_own);
    CHECK(answer.lenses[0].fine->from == 1.2);
    CHECK(answer.lenses[1].fine->from == 2.8);
}

TEST_CASE("the range starts where nobody is too near", "[plan][property]") {
    scene::Scene scene = two_deep();
    scene.people.push_back(with_eye_at("Sefu", 1.0));
    const TradeoffRange range = tradeoff_range(scene, {}, {});
    CHECK(range.nearest_m > 0.6 * 3);
    scene.camera.lens_to_mark_m = range.nearest_m;
    const auto view = scene::camera_view(scene);
    for (const scene::Person& person : scene.people)
        CHECK(scene::nearest_part_m(view, scene::solids(person)) >= scene::nearest_person_m);
}

// Four in a row 1.8 m wide: from near by the frame of the 50 mm cuts the outer heads.
TEST_CASE("from where on every head is whole is told, and nearer the frame does cut heads",
          "[plan][property]") {
    scene::Scene scene =
        level_scene({somebody("Odile", {.across_m = -0.9}), somebody("Bram", {.across_m = -0.3}),
                     somebody("Sefu", {.across_m = 0.3}), somebody("Yuki", {.across_m = 0.9})});
    scene.camera.aim = scene::AimAtGroup{};
    scene.camera.lens_to_mark_m = 2.2;
    scene.focus = scene::FocusBalanced{};
    const Tradeoff answer = answer_to(scene, {24});
    REQUIRE(answer.heads_whole_from_m);
    const auto cut_from = [&](double lens_to_mark_m, double focal_length_mm) {
        scene::Scene there = scene;
        there.camera.lens_to_mark_m = lens_to_mark_m;
        there.camera.focal_length_mm = focal_length_mm;
        return frame_cuts(there);
    };
    CHECK(cut_from(*answer.heads_whole_from_m, 50).heads.empty());
    CHECK_FALSE(cut_from(*answer.heads_whole_from_m - 0.002, 50).heads.empty());
    for (const TradeoffRow& row : answer.rows)
        CHECK(row.cut == cut_from(row.lens_to_mark_m, 50));
    for (const FramingLens& lens : answer.lenses) {
        REQUIRE(lens.lens_to_mark_m);
        CHECK(lens.cut == cut_from(*lens.lens_to_mark_m, lens.focal_length_mm));
    }
    // As the table of faces would tell it.
    REQUIRE(answer.whole_group);
    CHECK(answer.whole_group->lens_to_mark_m == whole_group(scene).lens_to_mark_m);
    CHECK(answer.cautions == std::vector{Caution::photographer_steps_back});
}

TEST_CASE("with the focus balanced already there is nothing to gain", "[plan][property]") {
    scene::Scene scene = two_deep();
    scene.focus = scene::FocusBalanced{};
    const Tradeoff answer = answer_to(scene);
    CHECK(answer.balanced_fine == answer.fine.f_numbers);
    CHECK(answer.balanced_crisp == answer.crisp.f_numbers);
}
