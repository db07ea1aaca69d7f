#include "plan/faces/face_light.h"

#include "plan/faces/face_table.h"
#include "posed.h"

#include <catch2/catch.hpp>

#include <string>
#include <utility>
#include <vector>

using namespace backrow;
using namespace backrow::plan;

namespace {

/// Sun at this height and azimuth (0: behind the camera's back) on people in a bright garden.
FaceLight light_on(std::vector<scene::Person> people, double elevation_deg, double azimuth_deg,
                   double ev100 = 14) {
    scene::Scene scene = level_scene(std::move(people));
    scene.light.sun_elevation_deg = elevation_deg;
    scene.light.sun_azimuth_deg = azimuth_deg;
    scene.light.scene_ev100 = ev100;
    return face_table(scene, camera_view(scene)).faces[0].light;
}

FaceLight light_on_one(double elevation_deg, double azimuth_deg, double ev100 = 14) {
    return light_on({somebody("Odile", {})}, elevation_deg, azimuth_deg, ev100);
}

}  // namespace

// Common practice, no source.
TEST_CASE("a low sun behind the photographer shines into eyes", "[plan][practice]") {
    CHECK(light_on_one(25, 0).sun_in_eyes);
    CHECK(light_on_one(25, 40).sun_in_eyes);
    CHECK_FALSE(light_on_one(25, 90).sun_in_eyes);
    CHECK_FALSE(light_on_one(65, 0).sun_in_eyes);
    CHECK(words_for(light_on_one(25, 0)) == std::vector<std::string>{"sun in the eyes"});
}

TEST_CASE("a sun behind the group lights no face", "[plan][property]") {
    const FaceLight light = light_on_one(25, 180);
    CHECK(light.is_backlit);
    CHECK_FALSE(light.sun_in_eyes);
    // Whoever turns round to it has it in the eyes.
    scene::Person turned = somebody("Odile", {});
    turned.pose.turn_deg = 180;
    CHECK(light_on({turned}, 25, 180).sun_in_eyes);
}

TEST_CASE("without a sun there is nothing to say", "[plan][property]") {
    CHECK(words_for(light_on_one(-5, 0)).empty());
    CHECK(words_for(light_on_one(25, 0, 11)).empty());
}

TEST_CASE("who stands in the sun's way shades", "[plan][property]") {
    // The sun hardly above the horizon behind the camera; a neighbour a step before her.
    const auto pair = [](double aside_m) {
        return std::vector{somebody("Odile", {}, 1.7),
                           somebody("Bram", {.across_m = aside_m, .up_m = 0, .back_m = -1}, 1.8)};
    };
    CHECK(light_on(pair(0), 3, 0).shaded > 0.9);
    CHECK_FALSE(light_on(pair(0), 3, 0).sun_in_eyes);
    CHECK(light_on(pair(0.9), 3, 0).shaded == 0);
    // A head's breadth aside the edge of the shadow lies across her face.
    CHECK(light_on(pair(0.1), 3, 0).has_shadow_across());
}

// Common practice, no source.
TEST_CASE("under a high sun a brim shades the eyes", "[plan][practice]") {
    scene::Person hatted = somebody("Odile", {});
    hatted.styling.headwear = figures::Headwear::hat;
    CHECK(light_on({hatted}, 45, 0).hat_shades);
    CHECK_FALSE(light_on({hatted}, 45, 0).sun_in_eyes);
    CHECK_FALSE(light_on({hatted}, 20, 0).hat_shades);
    CHECK_FALSE(light_on_one(45, 0).hat_shades);
}
