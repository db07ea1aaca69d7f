#include "render/studio/live_studio.h"

#include "../scene/fifty.h"

#include "test_stage.h"

#include "figures/measures/body_measures.h"
#include "measure/difference.h"
#include "render/passes/sample_choice.h"
#include "render/studio/open_studio.h"

using namespace backrow;
using namespace backrow::render;

namespace {

scene::Scene one_person(double across_m) {
    scene::Scene scene;
    scene.camera = scene::fifty_wide_open();
    scene::Person person;
    person.name = "Odile";
    person.place = {across_m, 0, 0};
    person.measures = figures::body_measures(1.70, std::nullopt);
    scene.people.push_back(person);
    scene.camera.lens_to_mark_m = 4.5;
    scene.camera.aim = scene::FromMark{0, 1, 0};
    scene.focus = scene::FocusAtDistance{4.5};
    return scene;
}

Image<Rgb8> shown(const Studio& studio, const stage::Stage& stage, const scene::CameraView& view) {
    const auto crop = whole_frame(view, 96);
    const auto samples = lens_samples_for(stage, studio.stage, view, crop, Quality::draft, 4);
    auto picture = make_picture(studio, view, crop, samples, KeepLinear::no, carry_on);
    REQUIRE(picture);
    CHECK_NOTHROW(require_no_gl_error());
    return std::move(picture->developed);
}

int differing(const Image<Rgb8>& one, const Image<Rgb8>& other) {
    int count = 0;
    for (std::size_t i = 0; i < one.pixels().size(); ++i)
        count += one.pixels()[i] == other.pixels()[i] ? 0 : 1;
    return count;
}

}  // namespace

TEST_CASE("whoever is led about is seen in the new place at once, and then in its light",
          "[render][property]") {
    auto live = LiveStudio::open();
    REQUIRE(live);
    CHECK_FALSE(live->has_stage());
    const scene::Scene before = one_person(0), after = one_person(0.4);
    const auto view = camera_view(before);
    live->follow(before, view);
    REQUIRE(live->build(LightCare::full, carry_on));
    CHECK(live->is_current());
    const auto at_first = shown(live->studio(0), live->stage(), view);

    live->follow(before, view);
    CHECK(live->is_current());

    live->follow(after, camera_view(after));
    CHECK_FALSE(live->is_current());
    const auto moved = shown(live->studio(0), live->stage(), view);

    // Given up, the building leaves everything as it was.
    const auto given_up = live->build(LightCare::full, [](double) { return false; });
    REQUIRE(given_up);
    REQUIRE_FALSE(*given_up);
    CHECK(std::holds_alternative<Stopped>(given_up->error()));
    CHECK_FALSE(live->is_current());
    CHECK(shown(live->studio(0), live->stage(), view).pixels() == moved.pixels());

    REQUIRE(live->build(LightCare::full, carry_on));
    CHECK(live->is_current());
    const auto relit = shown(live->studio(0), live->stage(), view);

    const auto stage = stage::build_stage(after, view);
    REQUIRE(stage);
    const auto open = OpenStudio::make(*stage, Look::lit, view.position_m, carry_on);
    REQUIRE(open);
    CHECK(relit.pixels() == shown(open->studio(0), *stage, view).pixels());
    // The body is where it will be; what still changes is light.
    CHECK(differing(at_first, moved) > 200);
    CHECK(differing(moved, relit) < differing(at_first, relit));
}

TEST_CASE("what no moved body can show waits for the stage to be built anew",
          "[render][property]") {
    auto live = LiveStudio::open();
    REQUIRE(live);
    scene::Scene scene = one_person(0);
    live->follow(scene, camera_view(scene));
    REQUIRE(live->build(LightCare::full, carry_on));
    const auto is_current_with = [&](const auto& change) {
        scene::Scene other = scene;
        change(other);
        live->follow(other, camera_view(other));
        return live->is_current();
    };
    // Rings do not touch the stage.
    CHECK(is_current_with([](auto& s) { s.camera.f_number = 8; }));
    CHECK(is_current_with([](auto& s) { s.focus = scene::FocusAtDistance{3}; }));
    CHECK_FALSE(is_current_with([](auto& s) { s.camera.lens_to_mark_m = 6; }));
    CHECK_FALSE(is_current_with([](auto& s) { s.people.front().pose.turn_deg = 20; }));
    CHECK_FALSE(is_current_with(
        [](auto& s) { s.setting.backdrops.push_back({.kind = setting::BackdropKind::wall}); }));
    CHECK(is_current_with([](auto&) {}));
}

TEST_CASE(
    "whoever leaves is not seen any more at once, comes back as they were, and changes places "
    "with others without being built anew",
    "[render][property]") {
    auto live = LiveStudio::open();
    REQUIRE(live);
    scene::Scene two = one_person(-0.3);
    scene::Person other = two.people.front();
    other.name = "Bram";
    other.place = {0.3, 0, 0};
    two.people.push_back(other);
    const auto view = camera_view(two);
    live->follow(two, view);
    REQUIRE(live->build(LightCare::full, carry_on));
    const auto both = shown(live->studio(0), live->stage(), view);

    scene::Scene alone = two;
    alone.people.erase(alone.people.begin());
    live->follow(alone, view);
    CHECK(live->shows_all());
    CHECK_FALSE(live->is_current());
    CHECK(live->number_on_stage(0) == 1);
    const auto without = shown(live->studio(0), live->stage(), view);
    CHECK(differing(both, without) > 50);

    live->follow(two, view);
    CHECK(live->shows_all());
    CHECK(shown(live->studio(0), live->stage(), view).pixels() == both.pixels());

    scene::Scene turned_round = two;
    std::swap(turned_round.people[0], turned_round.people[1]);
    live->follow(turned_round, view);
    CHECK(live->shows_all());
    CHECK(live->number_on_stage(0) == 1);
    CHECK(shown(live->studio(0), live->stage(), view).pixels() == both.pixels());
}

TEST_CASE("whoever comes is seen at once, moves and leaves, and then stands in their light",
          "[render][property]") {
    auto live = LiveStudio::open();
    REQUIRE(live);
    const scene::Scene alone = one_person(-0.3);
    const auto view = camera_view(alone);
    live->follow(alone, view);
    REQUIRE(live->build(LightCare::full, carry_on));
    const auto at_first = shown(live->studio(0), live->stage(), view);

    scene::Scene two = alone;
    scene::Person other = two.people.front();
    other.name = "Bram";
    other.place = {0.3, 0, 0};
    two.people.insert(two.people.begin(), other);
    live->follow(two, view);
    CHECK(live->shows_all());
    CHECK_FALSE(live->is_current());
    CHECK(live->number_on_stage(0) == 1);
    CHECK(live->number_on_stage(1) == 0);
    const auto both = shown(live->studio(0), live->stage(), view);

    scene::Scene moved = two;
    moved.people.front().place.across_m = 0.6;
    live->follow(moved, view);
    CHECK(live->shows_all());
    CHECK(differing(both, shown(live->studio(0), live->stage(), view)) > 50);

    live->follow(alone, view);
    CHECK(live->shows_all());
    CHECK(shown(live->studio(0), live->stage(), view).pixels() == at_first.pixels());

    live->follow(two, view);
    CHECK(shown(live->studio(0), live->stage(), view).pixels() == both.pixels());
    REQUIRE(live->build(LightCare::full, carry_on));
    CHECK(live->is_current());
    const auto relit = shown(live->studio(0), live->stage(), view);
    CHECK(differing(at_first, both) > 200);
    // What still changes is light.
    using measure::decibels, measure::difference;
    CHECK(decibels(difference(both, relit).mean_square) >
          decibels(difference(at_first, relit).mean_square) + 6);
}
