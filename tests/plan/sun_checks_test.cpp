#include "plan/faces/sun_checks.h"

#include "posed.h"

#include <catch2/catch.hpp>

#include <string>
#include <utility>
#include <vector>

using namespace backrow;
using namespace backrow::plan;

namespace {

using Faces = std::vector<std::size_t>;

scene::Scene under_the_sun(std::vector<scene::Person> people, double elevation_deg,
                           double azimuth_deg) {
    scene::Scene scene = level_scene(std::move(people));
    scene.light.sun_elevation_deg = elevation_deg;
    scene.light.sun_azimuth_deg = azimuth_deg;
    scene.light.scene_ev100 = 15;
    return scene;
}

struct Lit {
    FaceTable table;
    SunChecks checks;
};

Lit checked(const scene::Scene& scene) {
    const scene::CameraView view = camera_view(scene);
    Lit all{.table = face_table(scene, view), .checks = {}};
    all.checks = sun_checks(scene, view, all.table);
    return all;
}

LightFrom from(double elevation_deg, double azimuth_deg) {
    return checked(under_the_sun({somebody("Odile", {})}, elevation_deg, azimuth_deg)).checks.from;
}

}  // namespace

TEST_CASE("the sun is told by the side that it stands on", "[plan][property]") {
    CHECK(from(30, 0) == LightFrom::behind_camera);
    CHECK(from(30, 330) == LightFrom::behind_camera);
    CHECK(from(30, 90) == LightFrom::aside);
    CHECK(from(30, -90) == LightFrom::aside);
    CHECK(from(30, 180) == LightFrom::behind_group);
    CHECK(from(30, -150) == LightFrom::behind_group);
    CHECK(from(80, 180) == LightFrom::overhead);
    CHECK(from(-5, 180) == LightFrom::below_horizon);
    scene::Scene scene = under_the_sun({somebody("Odile", {})}, 30, 0);
    scene.light.scene_ev100 = 12;
    CHECK(checked(scene).checks.from == LightFrom::sky);
    scene.light.kind = scene::LightKind::window;
    CHECK(checked(scene).checks.from == LightFrom::window);
}

// By hand: a level 50 mm lens sees 24/2/50 up, atan 0.24 = 13.5°, and 36/2/50 aside, 19.8°.
TEST_CASE("the sun stands in the picture where the frame takes it in", "[plan][property]") {
    const auto is_in = [](double elevation_deg, double azimuth_deg) {
        return checked(under_the_sun({somebody("Odile", {})}, elevation_deg, azimuth_deg))
            .checks.is_in_frame;
    };
    CHECK(is_in(13, 180));
    CHECK_FALSE(is_in(14, 180));
    CHECK(is_in(5, 180 + 19));
    CHECK_FALSE(is_in(5, 180 - 21));
    CHECK_FALSE(is_in(5, 0));
}

// Common practice, no source.
TEST_CASE("whoever faces a low sun has it in the eyes, and the others have it behind them",
          "[plan][practice]") {
    scene::Person turned = somebody("Bram", {.across_m = 1});
    turned.pose.turn_deg = 180;
    const Lit all = checked(under_the_sun({somebody("Odile", {}), turned}, 25, 0));
    CHECK(all.checks.in_eyes == Faces{0});
    CHECK(all.checks.backlit == Faces{1});
    CHECK(all.checks.shadow_across.empty());
}

TEST_CASE("a shadow across a face is told with whoever throws it", "[plan][property]") {
    const Lit all =
        checked(under_the_sun({somebody("Odile", {}, 1.7),
                               somebody("Bram", {.across_m = 0.1, .up_m = 0, .back_m = -1}, 1.8),
                               somebody("Sefu", {.across_m = 3})},
                              3, 0));
    CHECK(all.checks.shadow_across == Faces{0});
    CHECK(all.table.faces[0].shaders == std::vector<std::string>{"Bram"});
    CHECK(all.table.faces[2].shaders.empty());
}
