// What a lens that is not perfect does to answers, not to the face table alone.

#include "plan/advice/advice.h"
#include "plan/odds/odds.h"
#include "plan/odds/odds_by_integration.h"
#include "posed.h"

#include <catch2/catch.hpp>

#include <cstdint>

namespace backrow::plan {
namespace {

const optics::LensProfile difficult{.widest_f_number = 1.4,
                                    .spherical_dpt = 0.03,
                                    .field_curvature_dpt = -0.03,
                                    .astigmatism_dpt = 0.03,
                                    .coma_dpt = 0.02};

/// Both as far away along the axis, one of them at the edge of the picture.
scene::Scene middle_and_edge(const optics::LensProfile& lens) {
    scene::Scene scene =
        scene_of_pixels({with_eye_at("Odile", 3.0), with_eye_at("Bram", 3.0, 0.9)});
    scene.camera.f_number = 1.4;
    scene.focus = scene::FocusOnPerson{"Odile"};
    scene.lens.profile = lens;
    scene.odds = {.sway_mm = 0,
                  .sideways_sway_mm = 0,
                  .camera_sway_mm = 0,
                  .autofocus_mm = 0,
                  .blinks_per_min = 0,
                  .blink_s = 0};
    return scene;
}

Odds odds_of(const scene::Scene& scene) {
    return odds_by_trials(frame_model(scene, scene::camera_view(scene), optics::Grade::fine),
                          {.trials = 100'000, .seed = 1, .threads = 2});
}

double widest_advised(const scene::Scene& scene) {
    const auto advice =
        advise(scene, {.lenses = {scene_lens(scene)}, .most_move_cm = 0, .margin_cm = 0},
               [](double /*share*/) { return true; });
    REQUIRE(advice);
    REQUIRE_FALSE(advice->answers.empty());
    return advice->answers.front().view.lens.f_number;
}

}  // namespace

TEST_CASE("on a difficult lens whoever stands at the edge decides how many frames are sharp",
          "[plan][property]") {
    const auto at = [](const optics::LensProfile& lens, double f_number) {
        scene::Scene scene = middle_and_edge(lens);
        scene.camera.f_number = f_number;
        scene.odds.autofocus_mm = 20;
        return odds_of(scene);
    };
    const Odds wide = at(difficult, 1.4);
    CHECK(wide.faces[0].sharp.value > wide.faces[1].sharp.value + 0.1);
    CHECK(wide.sharp.value <= wide.faces[1].sharp.value);
    const Odds perfect = at({.widest_f_number = 1.4}, 1.4);
    CHECK(perfect.faces[1].sharp.value > wide.faces[1].sharp.value + 0.1);
    CHECK(at(difficult, 4).sharp.value > wide.sharp.value + 0.1);
}

TEST_CASE("the best aperture of a difficult lens is not its widest", "[plan][property]") {
    CHECK(widest_advised(middle_and_edge({.widest_f_number = 1.4})) == 1.4);
    const double advised = widest_advised(middle_and_edge(difficult));
    CHECK(advised > 1.4);
    // Nobody sways and nothing misses: what is not held wide open never comes out, what is advised
    // always does.
    scene::Scene scene = middle_and_edge(difficult);
    CHECK(odds_of(scene).sharp.value == 0);
    scene.camera.f_number = advised;
    scene.focus = scene::FocusBalanced{};
    CHECK(odds_of(scene).sharp.value == 1);
}

// A camera whose plane of focus lies nearer than it means to is one that means to focus there.
TEST_CASE("a camera that focuses too near costs frames, as many as one that is set so",
          "[plan][property]") {
    const auto sharp_of = [](double focus_m, double offset_dpt) {
        scene::Scene scene = scene_of_pixels({with_eye_at("Odile", 3.0)});
        scene.camera.f_number = 1.4;
        scene.focus = scene::FocusAtDistance{focus_m};
        scene.lens.profile =
            optics::LensProfile{.widest_f_number = 1.4, .focus_offset_dpt = offset_dpt};
        scene.odds = {.sway_mm = 30, .sideways_sway_mm = 0, .camera_sway_mm = 0};
        return odds_of(scene).sharp_closed_form.value();
    };
    constexpr double offset_dpt = 0.02;
    CHECK(sharp_of(3, offset_dpt) < sharp_of(3, 0) - 0.05);
    // Tolerance: the image lies as far behind the lens as for the ring's distance, a thousandth
    // off.
    CHECK(sharp_of(3, offset_dpt) == Approx(sharp_of(1 / (1 / 3.0 + offset_dpt), 0)).epsilon(0.02));
}

}  // namespace backrow::plan
