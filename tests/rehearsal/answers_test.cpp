#include "rehearsal/sitting/answers.h"

#include "demo_scenes.h"
#include "rehearsal/sitting/edited_scene.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <string>

using namespace backrow;
using namespace backrow::rehearsal;
using Catch::Matchers::WithinRel;

namespace {

plan::Advice advice_for(const scene::Scene& scene) {
    const plan::AdviceWanted wanted{.grade = optics::Grade::crisp,
                                    .lenses = {plan::scene_lens(scene)}};
    return *plan::advise(scene, wanted, [](double) { return true; });
}

}  // namespace

TEST_CASE("each answer can be tried after any other, and all taken back", "[rehearsal][property]") {
    auto edited = EditedScene::open(demo_scene_file("choir"));
    REQUIRE(edited);
    const scene::Scene asked = edited->scene();
    const plan::Advice advice = advice_for(asked);
    REQUIRE(advice.answers.size() >= 3);
    const auto now = [&] {
        auto answers = rehearsal::answers(asked, edited->scene(), advice, Units::metric);
        REQUIRE(answers);
        return *answers;
    };
    CHECK(now().is_possible);
    CHECK(now().take_back.values.empty());
    CHECK(std::ranges::none_of(now().things, &ThingToTry::is_now));
    for (std::size_t i = 0; i < advice.answers.size(); ++i) {
        const Change change = now().things[i].change;
        CAPTURE(change.what);
        REQUIRE(edited->change(change.what, change.values));
        for (std::size_t j = 0; j < advice.answers.size(); ++j)
            CHECK(now().things[j].is_now == (i == j));
        // The scene as it is now, not as the advice remembers it.
        const plan::FaceTable table =
            plan::face_table(edited->scene(), camera_view(edited->scene()));
        for (const plan::Face& face : table.faces)
            CHECK(face.grade == optics::Grade::crisp);
    }
    const Change back = now().take_back;
    REQUIRE(edited->change(back.what, back.values));
    CHECK(now().take_back.values.empty());
    CHECK(edited->scene().camera.f_number == asked.camera.f_number);
}

TEST_CASE("advice does not hold for a scene that has been changed since", "[rehearsal][property]") {
    const scene::Scene asked = demo_scene("crew");
    const plan::Advice advice = advice_for(asked);
    CHECK(answers(asked, asked, advice, Units::metric));
    CHECK_FALSE(
        answers(asked, demo_scene("crew", {"person.Imogen.across_m=0.1"}), advice, Units::metric));
    CHECK_FALSE(answers(asked, demo_scene("crew", {"camera.height_m=1.6"}), advice, Units::metric));
    CHECK_FALSE(
        answers(asked, demo_scene("crew", {"row.0.people=[\"Dunja\"]"}), advice, Units::metric));
    for (const char* changed :
         {"person.Imogen.lean_sideways_m=0.2", "person.Imogen.speed_mps=1",
          "person.Imogen.heading_deg=30", "person.Imogen.gaze=ahead", "person.Imogen.arms=crossed",
          "person.Imogen.headwear=hat", "person.Imogen.expression=laugh",
          "setting.backdrop.0.back_m=31", "light.scene_ev100=3", "light.sun_azimuth_deg=10",
          "odds.sway_mm=20"}) {
        CAPTURE(changed);
        CHECK_FALSE(answers(asked, demo_scene("crew", {changed}), advice, Units::metric));
    }
}

TEST_CASE("who stops down as advised may pay with shutter and ISO and keeps the advice",
          "[rehearsal][property]") {
    auto edited = EditedScene::open(demo_scene_file("crew"));
    REQUIRE(edited);
    const scene::Scene asked = edited->scene();
    const plan::Advice advice = advice_for(asked);
    const Change change = answers(asked, asked, advice, Units::metric)->things[1].change;
    REQUIRE(edited->change(change.what, change.values));
    REQUIRE(edited->change("", {"camera.iso=400", "camera.shutter_s=0.001"}));
    const auto now = answers(asked, edited->scene(), advice, Units::metric);
    REQUIRE(now);
    CHECK(now->things[1].is_now);
    CHECK_FALSE(now->take_back.values.empty());
}

TEST_CASE("trying an answer sets what suits the light, and taking it back what was set",
          "[rehearsal][property]") {
    auto edited = EditedScene::open(demo_scene_file("choir"));
    REQUIRE(edited);
    REQUIRE(edited->change("", {"light.scene_ev100=12"}));
    const scene::Scene asked = edited->scene();
    const plan::Advice advice = advice_for(asked);
    const Change change = answers(asked, asked, advice, Units::metric)->things[0].change;
    REQUIRE(edited->change(change.what, change.values));
    const auto over = [&] {
        return plan::metering(edited->scene(), camera_view(edited->scene())).stops_over;
    };
    CHECK(std::abs(over()) <= 0.2);
    const Change back = answers(asked, edited->scene(), advice, Units::metric)->take_back;
    REQUIRE(edited->change(back.what, back.values));
    CHECK(edited->scene().camera.shutter_s == asked.camera.shutter_s);
    CHECK(edited->scene().camera.iso == asked.camera.iso);
    CHECK(over() > 3);
}

// The moves, the light and the background are those of the answer, which plan's own tests hold.
TEST_CASE("an answer says in one line what it is and what it costs", "[rehearsal][property]") {
    const scene::Scene asked = demo_scene("choir");
    const plan::Advice advice = advice_for(asked);
    const auto all = answers(asked, asked, advice, Units::metric);
    REQUIRE(all);
    for (std::size_t i = 0; i < all->things.size(); ++i) {
        const ThingToTry& thing = all->things[i];
        const plan::Answer& answer = advice.answers[i];
        CAPTURE(thing.what, thing.costs);
        CHECK(thing.what.starts_with("f/"));
        CHECK(thing.what.find('\n') == std::string::npos);
        CHECK((thing.what.find("nobody moves") != std::string::npos) == answer.moves.empty());
        CHECK(thing.costs.find(thing.stops_lost < 0 ? "gained" : "lost") != std::string::npos);
        CHECK(thing.stops_lost == answer.stops_lost);
        const double before = plan::background(asked, camera_view(asked)).percent_of_height;
        CHECK_THAT(thing.background_before_percent, WithinRel(before, 1e-12));
        CHECK(thing.background_after_percent == answer.background.percent_of_height);
        CHECK(thing.worst_grade == optics::Grade::crisp);
    }
}

TEST_CASE("where nothing is possible what comes nearest can still be tried",
          "[rehearsal][property]") {
    const scene::Scene asked = demo_scene("choir", {"viewing.use=\"wall\""});
    const plan::AdviceWanted wanted{.grade = optics::Grade::crisp,
                                    .lenses = {plan::scene_lens(asked)},
                                    .narrowest_f_number = 2.2,
                                    .most_move_cm = 2};
    const auto advice = *plan::advise(asked, wanted, [](double) { return true; });
    REQUIRE(advice.nearest);
    const auto all = answers(asked, asked, advice, Units::metric);
    REQUIRE(all);
    CHECK_FALSE(all->is_possible);
    REQUIRE(all->things.size() == 1);
    CHECK(all->things.front().worst_grade > optics::Grade::crisp);
    CHECK_FALSE(all->things.front().change.values.empty());
}
