#include "scene/set_people.h"

#include "../scene_file/scene_folder.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <string>
#include <vector>

namespace backrow::scene {
namespace {

using Names = std::vector<std::string>;

const std::string two_rows = R"([[row]]
people = ["Ana", "J. B."]
[[row]]
back_m = 0.5
up_m   = 0.2
people = ["Cleo"]
[[person]]
name     = "Cleo"
across_m = 0.1
[[person]]
name      = "Mia"
age_years = 3
carried_by = "Ana"
)";

Scene read(const std::vector<std::string>& values) {
    const scene_file::SceneFolder folder;
    auto scene = folder.read(two_rows, values);
    INFO((scene ? std::string{} : folder.lines(scene.error()).front()));
    REQUIRE(scene);
    return std::move(*scene);
}

std::size_t index_of(const Scene& scene, const std::string& name) {
    const auto found = std::ranges::find(scene.people, name, &Person::name);
    REQUIRE(found != scene.people.end());
    return static_cast<std::size_t>(found - scene.people.begin());
}

const Person& named(const Scene& scene, const std::string& name) {
    return scene.people[index_of(scene, name)];
}

}  // namespace

TEST_CASE("a newcomer takes the place that was asked for", "[scene][property]") {
    const Scene before = read({});
    CHECK(row_count(before) == 2);
    CHECK(names_in_row(read(set_coming(before, "Zoe", 0, 1)), 0) == Names{"Ana", "Zoe", "J. B."});
    CHECK(names_in_row(read(set_coming(before, "Zoe", 0, 9)), 0) == Names{"Ana", "J. B.", "Zoe"});
    const Scene third = read(set_coming(before, "Zoe \"Z\"", 2, 0));
    CHECK(names_in_row(third, 2) == Names{"Zoe \"Z\""});
    const Person alone = named(read(set_coming_alone("Zoe", -1.5, 0.25)), "Zoe");
    CHECK(alone.row == -1);
    CHECK(alone.place == FromMark{-1.5, 0, 0.25});
}

TEST_CASE("whoever leaves is gone, and whoever is renamed stays where they are",
          "[scene][property]") {
    const Scene left = read({set_leaving("J. B.")});
    CHECK(names_in_row(left, 0) == Names{"Ana"});
    CHECK(left.people.size() == 3);
    const Scene without_carrier = read({set_leaving("Ana")});
    CHECK(names_in_row(without_carrier, 0) == Names{"Mia", "J. B."});
    CHECK(named(without_carrier, "Mia").carrier == -1);
    const Scene renamed = read({set_renamed("Ana", "Åsa")});
    CHECK(names_in_row(renamed, 0) == Names{"Åsa", "J. B."});
    CHECK(renamed.people[static_cast<std::size_t>(named(renamed, "Mia").carrier)].name == "Åsa");
}

TEST_CASE("people move between rows and out of them", "[scene][property]") {
    const Scene before = read({});
    const Scene moved = read(set_moved(before, index_of(before, "Cleo"), 0, 0));
    CHECK(row_count(moved) == 1);
    CHECK(names_in_row(moved, 0) == Names{"Cleo", "Ana", "J. B."});
    CHECK(named(moved, "Cleo").own == FromMark{});
    CHECK(names_in_row(read(set_moved(before, index_of(before, "J. B."), 0, 0)), 0) ==
          Names{"J. B.", "Ana"});
    const Scene put_down = read(set_moved(before, index_of(before, "Mia"), 1, 1));
    CHECK(names_in_row(put_down, 1) == Names{"Cleo", "Mia"});
    CHECK(named(put_down, "Mia").carrier == -1);
    for (const char* name : {"J. B.", "Cleo", "Mia"}) {
        const Person out =
            named(read(set_moved_out(before, index_of(before, name), 1.5, -0.5)), name);
        CHECK(out.row == -1);
        CHECK(out.carrier == -1);
        CHECK(out.place == FromMark{1.5, 0, -0.5});
    }
}

}  // namespace backrow::scene
