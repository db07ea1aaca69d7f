#include "rehearsal/sitting/new_group.h"

#include "rehearsal/sitting/edited_scene.h"

#include "../scene_file/scene_folder.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <string>

using namespace backrow;
using namespace backrow::rehearsal;

namespace {

scene::Scene scene_from(const NewGroup& group) {
    const auto begun = begin_group(group);
    INFO((begun ? std::string{} : to_line(begun.error().front())));
    REQUIRE(begun);
    CHECK_FALSE(begun->choices.empty());
    const scene_file::SceneFolder folder;
    auto edited = EditedScene::begin(begun->text, folder.path("group.toml"));
    REQUIRE(edited);
    return edited->scene();
}

const scene::Person& person(const scene::Scene& scene, const std::string& name) {
    const auto found = std::ranges::find(scene.people, name, &scene::Person::name);
    REQUIRE(found != scene.people.end());
    return *found;
}

std::string complaint(const NewGroup& group) {
    const auto begun = begin_group(group);
    REQUIRE_FALSE(begun);
    return to_line(begun.error().front());
}

}  // namespace

TEST_CASE("a group is begun from what is typed, and from no more than a number of people",
          "[rehearsal][property]") {
    const scene::Scene five = scene_from({.guests = std::vector<TypedGuest>(5)});
    CHECK(five.people.size() == 5);
    const scene::Scene family = scene_from({.guests = {{.name = "Wilma", .age = "74"},
                                                       {.name = "Otto", .height = "182"},
                                                       {.name = " Ida ", .age = "6"},
                                                       {.name = "Ben", .height = "6 ft 2"}}});
    CHECK(person(family, "Wilma").measures.age_years == 74);
    CHECK(person(family, "Otto").measures.stature_m == 1.82);
    CHECK(person(family, "Ida").measures.age_years == 6);
    CHECK(person(family, "Ben").measures.stature_m == Approx(1.8796));
}

TEST_CASE("who sits, is carried, celebrated and stays beside whom goes into the scene",
          "[rehearsal][property]") {
    const scene::Scene scene = scene_from(
        {.guests = {
             {.name = "Wilma", .age = "74", .bearing = Bearing::seated},
             {.name = "Otto", .age = "76", .with = "Wilma", .is_celebrated = true},
             {.name = "Ana", .family = "north"},
             {.name = "Ben", .family = "north"},
             {.name = "Cleo"},
             {.name = "Mia", .age = "2", .bearing = Bearing::carried, .carried_by = "Ana"}}});
    CHECK(person(scene, "Wilma").pose.posture == figures::Posture::seated);
    CHECK(person(scene, "Otto").company.celebrated);
    CHECK(person(scene, "Otto").company.with == std::vector<std::string>{"Wilma"});
    CHECK(person(scene, "Ben").styling.family == "north");
    CHECK(person(scene, "Mia").carrier >= 0);
}

TEST_CASE("what cannot be read is told with whom it is about", "[rehearsal][property]") {
    CHECK(complaint({.guests = {{.name = "Ana", .age = "old"}}}).starts_with("Ana: “old”"));
    CHECK(complaint({.guests = {{.name = "Ana"}, {.name = "Ana "}}}).starts_with("Ana: two"));
    CHECK(complaint({.guests = {{.name = "Ana", .with = "Bo"}}}).starts_with("Ana: stays beside"));
    CHECK(complaint({.guests = {{.name = "Mia", .bearing = Bearing::carried}}})
              .starts_with("Mia: is carried"));
    CHECK_FALSE(begin_group({}));
}

TEST_CASE("a new scene gets a name that no file has", "[rehearsal][property]") {
    const scene_file::SceneFolder folder;
    const std::string first = free_scene_path(folder.path("."));
    CHECK(first.ends_with("group.toml"));
    std::ofstream{first} << "x";
    CHECK(free_scene_path(folder.path(".")).ends_with("group 2.toml"));
}
