#include "scene/camera_view.h"
#include "scene_file/reading/read_scene.h"

#include <catch2/catch.hpp>

#include <filesystem>

namespace backrow::scene_file {

using namespace backrow::scene;

TEST_CASE("every demo scene reads, is named, and keeps everybody in the picture",
          "[scene_file][property]") {
    int scenes = 0;
    for (const auto& entry : std::filesystem::directory_iterator{BACKROW_SOURCE_DIR "/scenes"}) {
        if (entry.path().extension() != ".toml")
            continue;
        ++scenes;
        const auto scene = scene_file::read_scene(entry.path().string());
        INFO(entry.path() << (scene ? "" : ": " + to_line(scene.error().front())));
        REQUIRE(scene);
        CHECK_FALSE(scene->title.empty());
        const CameraView view = camera_view(*scene);
        for (const Person& person : scene->people) {
            INFO(person.name);
            const figures::ReferencePoints points = reference_points(person);
            for (const glm::dvec3& point :
                 {points.chin_m, points.crown_m, points.left_ear_m, points.right_ear_m}) {
                // Whoever trims a print takes a thirtieth off each side.
                const glm::dvec2 at_px = project(view, point).at_px;
                CHECK(at_px.x > view.width_px / 30.0);
                CHECK(at_px.x < view.width_px * (1 - 1 / 30.0));
                CHECK(at_px.y > view.height_px / 30.0);
                CHECK(at_px.y < view.height_px * (1 - 1 / 30.0));
            }
        }
    }
    CHECK(scenes >= 10);
}

}  // namespace backrow::scene_file
