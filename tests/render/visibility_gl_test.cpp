#include "render/faces/visibility.h"

#include "../scene/fifty.h"

#include "test_stage.h"

#include "figures/figure.h"
#include "figures/measures/body_measures.h"

using namespace backrow;
using namespace backrow::render;

namespace {

// One person at the mark, the camera four metres in front at eye height.
scene::Scene one_person() {
    scene::Scene scene;
    scene.camera = scene::fifty_wide_open();
    scene.camera.lens_to_mark_m = 4.0;
    scene::Person person;
    person.name = "Mira";
    person.measures = figures::body_measures(1.70, std::nullopt);
    scene.people.push_back(person);
    scene.focus = scene::FocusOnPerson{"Mira"};
    scene.camera.aim = scene::AimAtPerson{"Mira"};
    scene.camera.height_m = person.measures.eye_height_m;
    return scene;
}

double visible(const Bench& bench, const scene::Scene& scene, const stage::Stage& stage) {
    const auto view = camera_view(scene);
    const auto visibility = Visibility::make(bench.gl());
    REQUIRE(visibility);
    StageOnGpu on_gpu{bench.gl(), stage};
    return visibility->measured_visible_fraction(bench.gl(), on_gpu, view, scene.people[0], 0);
}

}  // namespace

TEST_CASE("somebody alone is seen whole, though hair covers part of the head",
          "[render][property]") {
    const Bench bench;
    const auto scene = one_person();
    const auto stage = stage::build_stage(scene, camera_view(scene));
    REQUIRE(stage);
    CHECK(visible(bench, scene, *stage) == 1.0);
}

// A board whose edge runs down the middle of the face hides half of it. Tolerance: faces are
// symmetric, the rim of 192 texels is uncertain by one: about a hundredth.
TEST_CASE("a board in front hides as much of a face as it covers", "[render][measured]") {
    const Bench bench;
    const auto scene = one_person();
    auto stage = stage::build_stage(scene, camera_view(scene));
    REQUIRE(stage);
    auto half = board(-1.0, 0.0, 0.0, 3.0, -1.0, {0.2f, 0.2f, 0.2f});  // a metre before the mark
    stage->parts.push_back(half);
    CHECK(visible(bench, scene, *stage) == Approx(0.5).margin(0.02));
    stage->parts.back() = board(-1.0, 0.0, 1.0, 3.0, -1.0, {0.2f, 0.2f, 0.2f});
    CHECK(visible(bench, scene, *stage) == 0.0);
    stage->parts.back() = board(-1.0, 0.0, 1.0, 3.0, 1.0, {0.2f, 0.2f, 0.2f});  // behind
    CHECK(visible(bench, scene, *stage) == 1.0);
}
