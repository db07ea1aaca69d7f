#include "plan/comparing/carried_lens.h"

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
