#include "plan/comparing/cautions.h"

#include "posed.h"

#include <catch2/catch.hpp>

#include <string>
#include <vector>

using namespace backrow;
using namespace backrow::plan;

namespace {

/// Ana on the ground, Ben on a riser, Cleo with Mia on her shoulders.
scene::Scene family() {
    scene::Scene scene =
        level_scene({somebody("Ana", {}), somebody("Ben", {.across_m = 0.6, .up_m = 0.3}),
                     somebody("Cleo", {.across_m = 1.2}), somebody("Mia", {.across_m = 1.2})});
    scene.people[3].carrier = 2;
    return scene;
}

std::vector<Caution> after_moving(std::vector<std::size_t> who, double back_m) {
    const scene::Scene now = family();
    scene::Scene then = now;
    for (const std::size_t i : who)
        then.people[i].place.back_m += back_m;
    return cautions(now, then);
}

}  // namespace

TEST_CASE("who stays where they are minds nothing", "[plan][property]") {
    scene::Scene then = family();
    then.camera.f_number = 8;
    CHECK(cautions(family(), then).empty());
    then.camera.lens_to_mark_m -= 1;
    CHECK(cautions(family(), then).empty());
}

TEST_CASE("the photographer who steps back looks behind", "[plan][property]") {
    scene::Scene then = family();
    then.camera.lens_to_mark_m += 0.5;
    CHECK(cautions(family(), then) == std::vector{Caution::photographer_steps_back});
}

TEST_CASE("whoever is asked to step back looks behind, and forward nobody needs to",
          "[plan][property]") {
    CHECK(after_moving({0}, 0.1) == std::vector{Caution::somebody_steps_back});
    CHECK(after_moving({0}, -0.1).empty());
}

TEST_CASE("on a riser every move minds the edge", "[plan][property]") {
    CHECK(after_moving({1}, -0.1) == std::vector{Caution::moves_on_something});
    CHECK(after_moving({1}, 0.1) ==
          std::vector{Caution::somebody_steps_back, Caution::moves_on_something});
}

TEST_CASE("with a child on the shoulders nobody moves before it is set down", "[plan][property]") {
    CHECK(after_moving({2, 3}, -0.1) == std::vector{Caution::moves_with_a_child});
}

TEST_CASE("every caution is a sentence that defers to the rules of the place", "[plan][property]") {
    for (const Caution caution : {Caution::photographer_steps_back, Caution::somebody_steps_back,
                                  Caution::moves_on_something, Caution::moves_with_a_child})
        CHECK(to_words(caution).ends_with("the rules of the place decide."));
    CHECK(to_words(Caution::photographer_steps_back).find("look behind you") != std::string::npos);
}
