#include "report/faces/captions.h"

#include "../scene/fifty.h"

#include "figures/measures/body_measures.h"
#include "plan/faces/face_table.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <string>
#include <vector>

using namespace backrow;
using namespace backrow::report;

namespace {

struct Place {
    std::string name;
    double across_m = 0;
    double back_m = 0;
    int row = 0;
};

scene::Scene group_of(const std::vector<Place>& places) {
    scene::Scene scene = scene::before_fifty();
    for (const Place& place : places) {
        scene::Person person;
        person.name = place.name;
        person.place = {place.across_m, 0, place.back_m};
        person.row = place.row;
        person.measures = figures::body_measures(1.70, std::nullopt);
        scene.people.push_back(person);
    }
    scene.camera.aim = scene::FromMark{0, 1.5, 0};
    scene.focus = scene::FocusOnPerson{places.front().name};
    return scene;
}

std::vector<std::string> lines_of(const scene::Scene& scene) {
    const auto view = camera_view(scene);
    return caption_lines(scene, view, plan::face_table(scene, view).faces);
}

using Lines = std::vector<std::string>;

}  // namespace

// Common practice, no source: the back row first, each row from the left as the picture has it.
TEST_CASE("a group is named row by row from the back, and from the left", "[report][practice]") {
    CHECK(lines_of(group_of({{"Odile", 0.4, 0, 0}, {"Bram", -0.4, 0, 0}})) ==
          Lines{"From left: Bram, Odile"});
    CHECK(lines_of(group_of({{"Odile", -0.4, 0, 0},
                             {"Bram", 0.4, 0, 0},
                             {"Sefu", 0.1, 0.8, 1},
                             {"Priya", -0.9, 0.8, 1}})) ==
          Lines{"Back row, from left: Priya, Sefu", "Front row, from left: Odile, Bram"});
    // Which row lies farther decides, not which is written first.
    CHECK(lines_of(group_of({{"Odile", 0, 1.6, 0}, {"Bram", 0.1, 0, 1}, {"Sefu", 0.5, 0.8, 2}})) ==
          Lines{"Back row, from left: Odile", "Middle row, from left: Sefu",
                "Front row, from left: Bram"});
    CHECK(lines_of(group_of(
              {{"A", 0, 0, 0}, {"B", 0.5, 0.8, 1}, {"C", 0, 1.6, 2}, {"D", 0.5, 2.4, 3}}))[1] ==
          "Row 3, from left: C");
}

TEST_CASE("whoever stands apart or is carried is named as well", "[report][property]") {
    scene::Scene scene = group_of({{"Odile", -0.4, 0, 0}, {"Bram", 0.9, 0.2, -1}});
    CHECK(lines_of(scene) == Lines{"From left: Odile", "Beside the rows, from left: Bram"});
    scene.people[1].carrier = 0;
    CHECK(lines_of(scene) == Lines{"From left: Odile, Bram"});
    CHECK(lines_of(group_of({{"Odile", 0.4, 0, -1}, {"Bram", -0.4, 0, -1}})) ==
          Lines{"From left: Bram, Odile"});
}

TEST_CASE("whoever is not in the picture is not named under it", "[report][property]") {
    CHECK(lines_of(group_of({{"Odile", 0, 0, 0}, {"Bram", 9, 0, 0}})) == Lines{"From left: Odile"});
    CHECK(lines_of(group_of({{"Bram", 9, 0, 0}})).empty());
}

TEST_CASE("captions stand under the picture and leave it as it is", "[report][property]") {
    Image<Rgb8> picture{300, 200, {10, 60, 90}};
    picture.at(299, 199) = {1, 2, 3};
    const Image<Rgb8> sheet = with_captions(picture, "Choir", {"From left: Odile, Bram"});
    REQUIRE(sheet.width_px() == 300);
    REQUIRE(sheet.height_px() > 220);
    CHECK(std::equal(picture.pixels().begin(), picture.pixels().end(), sheet.pixels().begin()));
    const auto below = sheet.pixels().begin() + static_cast<long>(picture.pixels().size());
    CHECK(std::any_of(below, sheet.pixels().end(), [](const Rgb8& p) { return p.r < 100; }));
    // Nothing is cut: the last line is paper.
    CHECK(std::all_of(sheet.pixels().end() - 300, sheet.pixels().end(), [](const Rgb8& p) {
        return p == Rgb8{255, 255, 255};
    }));
    // Names in plenty take more lines, and what is narrow takes still more.
    std::string many = "From left: Odile";
    for (int i = 0; i < 60; ++i)
        many += ", Bartholomea";
    CHECK(with_captions(picture, "Choir", {many}).height_px() > sheet.height_px() + 100);
    CHECK(with_captions(Image<Rgb8>{16, 10}, "", {many}).width_px() == 16);
}
