#include "plan/faces/sharpness.h"

#include "posed.h"

#include <catch2/catch.hpp>

using namespace backrow;
using namespace backrow::plan;

namespace {

double mtf50_of_first(const scene::Scene& scene) {
    const auto found = sharpness_of_faces(scene, camera_view(scene));
    REQUIRE(found.front());
    return found.front()->mtf50_cy_per_px;
}

}  // namespace

TEST_CASE(
    "a face in focus keeps more detail than one behind it, and nobody has any behind the lens",
    "[plan][property]") {
    scene::Scene scene = level_scene(
        {with_eye_at("Odile", 3.0), with_eye_at("Bram", 3.5), with_eye_at("Ingrid", -1.0)});
    scene.focus = scene::FocusOnPerson{"Odile"};
    scene.viewing = optics::album_viewing;
    const auto found = sharpness_of_faces(scene, camera_view(scene));
    REQUIRE(found.size() == 3);
    REQUIRE(found[0]);
    REQUIRE(found[1]);
    CHECK(found[0]->mtf50_cy_per_mm > 2 * found[1]->mtf50_cy_per_mm);
    REQUIRE(found[0]->acutance);
    CHECK(*found[0]->acutance > *found[1]->acutance);
    CHECK(*found[0]->acutance > 0.97);
    CHECK_FALSE(found[2]);
    scene.viewing = scene::PixelViewing{};
    CHECK_FALSE(sharpness_of_faces(scene, camera_view(scene))[0]->acutance);
}

TEST_CASE("a poor lens, a very small opening and a walk each take detail", "[plan][property]") {
    scene::Scene scene = level_scene({with_eye_at("Odile", 3.0)});
    scene.focus = scene::FocusOnPerson{"Odile"};
    scene.camera.f_number = 4;
    const double best = mtf50_of_first(scene);
    scene.camera.f_number = 22;
    CHECK(mtf50_of_first(scene) < 0.8 * best);
    scene.camera.f_number = 4;
    scene.lens.profile = optics::LensProfile{.widest_f_number = 2, .spherical_dpt = 0.6};
    CHECK(mtf50_of_first(scene) < 0.8 * best);
    scene.lens.profile.reset();
    scene.people[0].speed_mps = 1;
    scene.people[0].heading_deg = 90;
    CHECK(mtf50_of_first(scene) < 0.8 * best);
}
