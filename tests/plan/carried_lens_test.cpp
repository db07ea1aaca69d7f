#include "plan/comparing/carried_lens.h"

#include "plan/advice/advice.h"
#include "plan/comparing/strip.h"
#include "plan/comparing/tradeoff.h"
#include "posed.h"

#include <catch2/catch.hpp>

using namespace backrow;
using namespace backrow::plan;

namespace {

scene::Scene through_own_lens() {
    scene::Scene scene = level_scene({with_eye_at("Odile", 3.0)});
    scene.lens.profile = optics::LensProfile{.widest_f_number = 1.2};
    scene.lens.profile_file = "own.toml";
    return scene;
}

}  // namespace

TEST_CASE("a lens of which nothing is known is a perfect one", "[plan][property]") {
    const scene::Scene scene = through_own_lens();
    CHECK(with_lens(scene, 50).lens.profile);
    CHECK_FALSE(with_lens(scene, 85).lens.profile);
    CHECK(with_lens(scene, 85).lens.profile_file.empty());
    CHECK(with_lens(scene, {.focal_length_mm = 50, .widest_f_number = 1.4}).lens.profile);
}

TEST_CASE("no answer opens a lens further than its profile does, nor closes it",
          "[plan][property]") {
    scene::Scene scene = level_scene({with_eye_at("Odile", 3.0), with_eye_at("Bram", 5.0, 0.6)});
    scene.camera.f_number = 2;
    // Sharp together from f/4.4 on: .169 mm/N of blur in an album, focused at 3.75 m.
    scene.lens.profile = optics::LensProfile{.widest_f_number = 1.8, .smallest_f_number = 4};
    CHECK(narrowest_f_number(scene) == 4);
    const TradeoffRange range = tradeoff_range(scene, {}, {});
    CHECK(range.widest_f_number == 1.8);
    CHECK(range.narrowest_f_number == 4);
    CHECK(tradeoff_range(scene, {.narrowest_f_number = 2.8}, {}).widest_f_number == 1.8);
    for (const double f_number : strip_f_numbers(scene))
        CHECK((f_number >= 1.8 && f_number <= 4));
    AdviceWanted wanted{.lenses = {scene_lens(scene)}, .most_move_cm = 0, .margin_cm = 0};
    const auto go_on = [](double /*share*/) { return true; };
    CHECK(advise(scene, wanted, go_on)->answers.empty());
    scene.lens.profile->smallest_f_number = 0;
    CHECK_FALSE(advise(scene, wanted, go_on)->answers.empty());
}

TEST_CASE("a lens that opens further than the scene's own is another one", "[plan][property]") {
    const scene::Scene scene = through_own_lens();
    CHECK_FALSE(with_lens(scene, {.focal_length_mm = 50, .widest_f_number = 1.0}).lens.profile);
}

TEST_CASE("a lens carried brings its own profile", "[plan][property]") {
    const optics::LensProfile soft{.widest_f_number = 1.4, .spherical_dpt = 0.1};
    const scene::Scene there = with_lens(
        through_own_lens(),
        {.focal_length_mm = 50, .widest_f_number = 1.4, .profile = soft, .profile_file = "s.toml"});
    CHECK(there.lens.profile == soft);
    CHECK(there.lens.profile_file == "s.toml");
}

// Common practice, no source: fast lenses are best two or three stops down.
TEST_CASE("wider than f/2 a lens of which nothing is known is trusted too far",
          "[plan][practice]") {
    scene::Scene scene = through_own_lens();
    scene.camera.f_number = 1.4;
    CHECK_FALSE(trusts_perfect_lens(scene));
    scene.lens.profile.reset();
    CHECK(trusts_perfect_lens(scene));
    scene.camera.f_number = 2;
    CHECK_FALSE(trusts_perfect_lens(scene));
}
