#include "rehearsal/files/kept_camera_places.h"

#include "rehearsal/files/state_of_scene.h"

#include "kept_home.h"

#include "base/whole_path.h"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <string>

using namespace backrow;
using namespace backrow::rehearsal;

namespace {

const std::string duo = "[[row]]\npeople = [\"Ana\", \"Ben\"]\n";

struct Scenes : KeptHome {
    std::string path = folder.write("duo.toml", duo);
    std::filesystem::path file = *state_of_scene(path, ".places");

    [[nodiscard]] EditedScene open() const { return *EditedScene::open(path); }
    void write(const std::string& bytes) const {
        std::filesystem::create_directories(file.parent_path());
        std::ofstream{file, std::ios::binary} << bytes;
    }
};

}  // namespace

TEST_CASE("places of the camera are there again when the scene is opened again",
          "[rehearsal][property]") {
    const Scenes scenes;
    EditedScene edited = scenes.open();
    CHECK(kept_camera_places(edited).empty());
    std::vector<CameraPlace> places{camera_place(edited.scene())};
    REQUIRE(edited.change("", {"camera.distance_m=7.25", "camera.f_number=2.8",
                               "camera.orientation=portrait", "camera.aim=Ben", "focus.on=Ana",
                               "camera.shutter_s=0.004"}));
    places.push_back(camera_place(edited.scene()));
    REQUIRE(edited.save());
    keep_camera_places(edited, places);

    const EditedScene again = scenes.open();
    const auto kept = kept_camera_places(again);
    REQUIRE(kept.size() == 2);
    for (std::size_t i = 0; i < kept.size(); ++i)
        CHECK(values_of(kept[i]) == values_of(places[i]));
    CHECK(go_to(again.scene(), kept[1]).values.empty());

    keep_camera_places(again, {});
    CHECK_FALSE(std::filesystem::exists(scenes.file));
}

TEST_CASE("a place that is focused on whoever has left is not among them",
          "[rehearsal][property]") {
    const Scenes scenes;
    EditedScene edited = scenes.open();
    std::vector<CameraPlace> places{camera_place(edited.scene())};
    REQUIRE(edited.change("", {"focus.on=Ana"}));
    places.push_back(camera_place(edited.scene()));
    keep_camera_places(edited, places);
    REQUIRE(edited.change("", {"person.Ana.name=\"\""}));
    CHECK(kept_camera_places(edited).size() == 1);
}

TEST_CASE("a group that was never saved keeps no places, nor has it those of another",
          "[rehearsal][property]") {
    const Scenes scenes;
    const EditedScene saved = scenes.open();
    keep_camera_places(saved, {camera_place(saved.scene())});
    const auto begun = EditedScene::begin(duo, scenes.path);
    REQUIRE(begun);
    CHECK(kept_camera_places(*begun).empty());
    keep_camera_places(*begun, {});
    CHECK(kept_camera_places(saved).size() == 1);
}

TEST_CASE("a damaged list of places is as if it were not there, and sets nothing but the camera",
          "[rehearsal][property]") {
    const Scenes scenes;
    const std::string head = "backrow camera places 1\n" + whole_path(scenes.path) + "\n";
    const auto count = [&](const std::string& bytes) {
        scenes.write(bytes);
        return kept_camera_places(scenes.open()).size();
    };
    CHECK(count(head + "place\ncamera.distance_m=5\n") == 1);
    CHECK(count("") == 0);
    CHECK(count(std::string(5000, '\0')) == 0);
    CHECK(count("backrow camera places 1\n/another.toml\nplace\ncamera.distance_m=5\n") == 0);
    CHECK(count(head + "camera.distance_m=5\n") == 0);
    CHECK(count(head + "place\ncamera.distance_m=no\nplace\ncamera.distance_m=5\n") == 1);
    CHECK(count(head + "place\nperson.Ana.name=\"\"\n") == 0);
    std::string many = head;
    for (int i = 0; i < 1000; ++i)
        many += "place\ncamera.distance_m=5\n";
    CHECK(count(many) == most_camera_places);
}
