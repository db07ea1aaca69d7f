#include "rehearsal/hands/drag.h"

#include "../scene/fifty.h"

#include "demo_scenes.h"
#include "trio.h"

#include <catch2/catch.hpp>

#include <variant>

using namespace backrow;
using namespace backrow::rehearsal;

namespace {

constexpr double reach_m = 0.05;
using Chosen = std::vector<std::size_t>;

/// A scene with what follows from it, under a hand.
struct Bench {
    scene::Scene scene = scene::before_fifty();
    Facts facts = facts_of(scene, {});

    [[nodiscard]] Press above(const plan::DrawingPoint& at,
                              const std::vector<std::size_t>& chosen = {},
                              bool with_ctrl = false) const {
        return press_from_above(scene, facts,
                                {.at = at, .reach_m = reach_m, .with_ctrl = with_ctrl}, chosen);
    }
    [[nodiscard]] Press side(const plan::DrawingPoint& at, bool with_shift = false) const {
        return press_from_the_side(scene, facts,
                                   {.at = at, .reach_m = reach_m, .with_shift = with_shift});
    }
    [[nodiscard]] Change dragged(const Press& press, const plan::DrawingPoint& to,
                                 bool with_shift = false) const {
        REQUIRE(press.grip);
        return drag_to(scene, facts, *press.grip, {.at = to, .with_shift = with_shift});
    }
};

plan::DrawingPoint moved(const plan::DrawingPoint& from, double x_m, double y_m) {
    return {from.x_m + x_m, from.y_m + y_m};
}

}  // namespace

TEST_CASE("somebody gripped beside their place stays as far beside the pointer",
          "[rehearsal][property]") {
    const Bench bench{trio()};
    const plan::DrawingPoint cleo = moved(bench.facts.above.people[2].place, 0.06, 0.02);
    const Press press = bench.above(cleo);
    CHECK(press.chosen == Chosen{2});
    REQUIRE(press.grip);
    CHECK(drawing_of(*press.grip) == Drawing::from_above);
    CHECK(bench.dragged(press, cleo).values.empty());
    CHECK(bench.dragged(press, moved(cleo, 0.1, 0.25)).values ==
          Values{"person.Cleo.across_m=1.3", "person.Cleo.back_m=0.25"});
}

// Ana stands 10 cm behind the line of her row.
TEST_CASE("who is dragged keeps to the line of the row unless Shift is pressed",
          "[rehearsal][property]") {
    const Bench bench{trio()};
    const plan::DrawingPoint ana = bench.facts.above.people[0].place;
    const Press press = bench.above(ana);
    CHECK(bench.dragged(press, moved(ana, 0.2, 0.3)).values ==
          Values{"person.Ana.across_m=0.2", "person.Ana.back_m=0.0"});
    CHECK(bench.dragged(press, moved(ana, 0.2, 0.3), true).values ==
          Values{"person.Ana.across_m=0.2", "person.Ana.back_m=0.4"});
}

TEST_CASE("the camera is dragged by its lens, and whoever is chosen stays so",
          "[rehearsal][property]") {
    const Bench bench{trio()};
    const plan::DrawingPoint lens = moved(bench.facts.above.lens, 0.03, 0.02);
    const Press press = bench.above(lens, {1});
    CHECK(press.chosen == Chosen{1});
    CHECK(bench.dragged(press, lens).values.empty());
    CHECK(bench.dragged(press, moved(lens, 0.3, -1)).values ==
          Values{"camera.across_m=0.3", "camera.distance_m=5.0"});
}

// The camera is level and looks straight back, so axial distance is 4 m and what lies behind the
// mark.
TEST_CASE("the plane of focus is dragged to where the pointer is", "[rehearsal][property]") {
    scene::Scene scene = trio();
    scene.camera.level = true;
    scene.camera.aim = scene::FromMark{0, 1.5, 0};
    const Bench bench{scene};
    REQUIRE(bench.facts.above.plane_of_focus);
    const plan::DrawingPoint end = bench.facts.above.plane_of_focus->from;
    const Press press = bench.above(end, {0});
    CHECK(press.chosen == Chosen{0});
    CHECK(bench.dragged(press, {end.x_m, 1.25}).values == Values{"focus.distance_m=5.25"});
}

TEST_CASE("a press beside everything lets go of whoever was chosen", "[rehearsal][property]") {
    const Bench bench{trio()};
    const Press press = bench.above({-3, 3}, {1});
    CHECK(press.chosen.empty());
    CHECK_FALSE(press.grip);
    CHECK(bench.side({1, 5}).chosen.empty());
}

TEST_CASE("with Ctrl others are chosen as well, and all who are chosen are dragged together",
          "[rehearsal][property]") {
    const Bench bench{trio()};
    const plan::DrawingPoint cleo = bench.facts.above.people[2].place;
    const Press also = bench.above(cleo, {0}, true);
    CHECK(also.chosen == Chosen{0, 2});
    CHECK_FALSE(also.grip);
    CHECK(bench.above(cleo, {0, 2}, true).chosen == Chosen{0});
    const Press both = bench.above(cleo, {2, 0});
    CHECK(both.chosen == Chosen{0, 2});
    CHECK(bench.dragged(both, moved(cleo, 0.2, 0.3)).values ==
          Values{"person.Cleo.across_m=1.4", "person.Ana.across_m=0.2"});
    CHECK(bench.dragged(both, moved(cleo, 0, 0.3), true).values ==
          Values{"person.Cleo.back_m=0.3", "person.Ana.back_m=0.4"});
    // Whoever is not among them is chosen alone.
    CHECK(bench.above(cleo, {0, 1}).chosen == Chosen{2});
}

TEST_CASE("in profile a head is dragged forward and back, with Shift it leans",
          "[rehearsal][property]") {
    const Bench bench{trio()};
    const plan::DrawingPoint cleo = bench.facts.side.heads[2].nearer_eye;
    const Press leads = bench.side(cleo);
    CHECK(leads.chosen == Chosen{2});
    REQUIRE(leads.grip);
    CHECK(drawing_of(*leads.grip) == Drawing::from_the_side);
    CHECK(bench.dragged(leads, cleo).values.empty());
    // Up and down is no way to lead anybody.
    CHECK(bench.dragged(leads, moved(cleo, 0.1, 0.4)).values == Values{"person.Cleo.back_m=0.1"});
    const Press leans = bench.side(cleo, true);
    CHECK(leans.chosen == Chosen{2});
    CHECK(bench.dragged(leans, moved(cleo, -0.07, 0)).values == Values{"person.Cleo.lean_m=-0.07"});
}

// A drag is many changes, each from where the scene has come to; so it must not matter which way
// the pointer came.
TEST_CASE("where a drag ends does not depend on its way", "[rehearsal][property]") {
    const Bench bench{demo_scene("choir")};
    for (std::size_t person = 0; person < bench.scene.people.size(); ++person) {
        const plan::DrawingPoint place = bench.facts.above.people[person].place;
        const Press press = bench.above(place);
        REQUIRE(press.grip);
        scene::Scene astray = bench.scene;
        astray.people[press.chosen.front()].place.across_m += 1;
        astray.people[press.chosen.front()].own.across_m += 1;
        const Pointer to{.at = moved(place, 0.3, 0.2), .with_shift = true};
        CHECK(drag_to(astray, bench.facts, *press.grip, to).values ==
              drag_to(bench.scene, bench.facts, *press.grip, to).values);
    }
}

// By hand: the sun comes from 140°, a quarter further on is 230°; the ring's middle stays.
TEST_CASE("the sun is dragged round the group", "[rehearsal][property]") {
    const Bench bench{trio()};
    REQUIRE(bench.facts.above.sun);
    const plan::SunFromAbove& sun = *bench.facts.above.sun;
    const Press press = bench.above(sun.at, {1});
    CHECK(press.chosen == Chosen{1});
    REQUIRE(press.grip);
    CHECK(bench.dragged(press, sun.at).values.empty());
    const plan::DrawingPoint out{sun.at.x_m - sun.middle.x_m, sun.at.y_m - sun.middle.y_m};
    CHECK(bench.dragged(press, moved(sun.middle, -2 * out.y_m, 2 * out.x_m)).values ==
          Values{"light.sun_azimuth_deg=230.0"});
    CHECK(bench.dragged(press, moved(sun.middle, 0, -1)).values ==
          Values{"light.sun_azimuth_deg=0.0"});
    CHECK(bench.dragged(press, moved(sun.middle, 1, 0)).values ==
          Values{"light.sun_azimuth_deg=90.0"});
}

TEST_CASE("a window is dragged about and keeps facing the mark", "[rehearsal][property]") {
    scene::Scene scene = trio();
    scene.light.kind = scene::LightKind::window;
    const Bench bench{scene};
    CHECK_FALSE(bench.facts.above.sun);
    REQUIRE(bench.facts.above.window);
    const plan::Line& line = *bench.facts.above.window;
    const plan::DrawingPoint middle{(line.from.x_m + line.to.x_m) / 2,
                                    (line.from.y_m + line.to.y_m) / 2};
    const Press press = bench.above(middle);
    CHECK(bench.dragged(press, middle).values.empty());
    CHECK(bench.dragged(press, {.x_m = 4, .y_m = 0}).values ==
          Values{"light.window_azimuth_deg=90.0", "light.window_distance_m=4.0"});
}

TEST_CASE("a backdrop is dragged forward and back", "[rehearsal][property]") {
    scene::Scene scene = trio();
    scene.setting.backdrops = {{.back_m = 3.0}, {.back_m = 5.0}};
    const Bench bench{scene};
    const Press press = bench.above({.x_m = 0.2, .y_m = 5.03});
    CHECK(bench.dragged(press, {.x_m = 0.2, .y_m = 5.03}).values.empty());
    CHECK(bench.dragged(press, {.x_m = 1, .y_m = 6.53}).values ==
          Values{"setting.backdrop.1.back_m=6.5"});
}

TEST_CASE("a model is dragged, unless people stand in it", "[rehearsal][property]") {
    scene::Scene scene = trio();
    scene.models = {{.file = "bench", .place = {.across_m = 2, .up_m = 0, .back_m = 2}}};
    plan::Extent box;
    box.take({.x_m = 0, .y_m = 0}, 0.5);
    const plan::ModelOutlines outlines{{"bench", box}};
    const Bench bench{scene, facts_of(scene, outlines)};
    const Press press = bench.above({.x_m = 2.3, .y_m = 2.2});
    CHECK(bench.dragged(press, {.x_m = 2.3, .y_m = 2.2}).values.empty());
    CHECK(bench.dragged(press, {.x_m = 1.3, .y_m = 2.7}).values ==
          Values{"model.0.across_m=1.0", "model.0.back_m=2.5"});
    scene.models[0].scale = 20;
    const Bench scan{scene, facts_of(scene, outlines)};
    CHECK_FALSE(scan.above({.x_m = 2.3, .y_m = 2.6}).grip);
}
