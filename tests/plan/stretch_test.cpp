#include "plan/faces/stretch.h"

#include "posed.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace backrow;
using namespace backrow::plan;

namespace {

scene::Scene wide(double across_m) {
    scene::Scene scene = level_scene(
        {somebody("Odile", {}), somebody("Bram", {.across_m = across_m, .up_m = 0, .back_m = 0})});
    scene.camera.focal_length_mm = 24;
    return scene;
}

double stretch(const scene::Scene& scene, std::size_t who) {
    return stretch_of(camera_view(scene), reference_points(scene.people[who]));
}

}  // namespace

// A ball seen at the angle t to the axis is drawn as an ellipse whose long axis is 1/cos t times
// its short one [KINGSLAKE1992], from memory: at 30° 1.1547, at 45° √2. Ears lie a few centimetres
// off the lens' height and the mark, which changes the angle by a degree at most.
TEST_CASE("a head at an angle is stretched by one over its cosine", "[plan][from-memory]") {
    CHECK(stretch(wide(1), 0) == Approx(1).margin(0.002));
    CHECK(stretch(wide(3 * std::tan(std::numbers::pi / 6)), 1) == Approx(1.1547).margin(0.012));
    CHECK(stretch(wide(3), 1) == Approx(std::numbers::sqrt2).margin(0.025));
}

TEST_CASE("what mends the stretch does, and keeps the head as large", "[plan][property]") {
    scene::Scene scene = wide(2);
    const auto mend = mend_stretch(scene, camera_view(scene));
    REQUIRE(mend);
    CHECK(mend->person == 1);
    const auto head_px = [&] {
        const scene::CameraView view = camera_view(scene);
        const auto points = reference_points(scene.people[1]);
        return project(view, points.chin_m).at_px.y - project(view, points.crown_m).at_px.y;
    };
    const double before_px = head_px();
    scene.camera.lens_to_mark_m = mend->lens_to_mark_m;
    scene.camera.focal_length_mm = mend->focal_length_mm;
    scene.focus = scene::FocusAtDistance{mend->lens_to_mark_m};
    CHECK(stretch(scene, 1) == Approx(seen_stretch).margin(1e-6));
    // The image distance grows a little with the focal length, v = f·s/(s − f).
    CHECK(head_px() == Approx(before_px).epsilon(0.01));
}

TEST_CASE("a long lens needs no mending", "[plan][property]") {
    scene::Scene scene = wide(0.5);
    scene.camera.focal_length_mm = 85;
    CHECK_FALSE(mend_stretch(scene, camera_view(scene)));
}
