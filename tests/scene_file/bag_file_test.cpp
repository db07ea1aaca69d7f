#include "scene_file/reading/bag_file.h"

#include "scene_folder.h"

#include <catch2/catch.hpp>

using namespace backrow;
using namespace backrow::scene_file;

// The usual bag is common practice, no source.
TEST_CASE("who has written down no bag carries what many do", "[scene_file][practice]") {
    const SceneFolder folder;
    const auto bag = read_bag(folder.path("none.toml"));
    REQUIRE(bag);
    REQUIRE(bag->lenses.size() == 3);
    CHECK(bag->lenses[2].name == "85 mm f/1.8");
    CHECK(bag->bodies[0].name == "36 × 24 mm, 24 megapixels");
}

TEST_CASE("a bag is read as it was written, by the program or by hand", "[scene_file][property]") {
    const SceneFolder folder;
    const Bag bag{
        .lenses = {{.name = "the \"long\" one",
                    .focal_length_mm = 135,
                    .widest_f_number = 2,
                    .profile = folder.path("long.toml")},
                   {.name = "50 mm f/1.4", .focal_length_mm = 50, .widest_f_number = 1.4}},
        .bodies = {{.name = "the second", .sensor_mm = {23.6, 15.6}, .pixels = {6000, 4000}}}};
    const auto again = read_bag(folder.write("bag.toml", bag_toml(bag)));
    REQUIRE(again);
    CHECK(*again == bag);
    const auto by_hand =
        read_bag(folder.write("hand.toml", "[[lens]]\nfocal_length_mm = 85\nwidest_f_number = "
                                           "\"f/1.8\"\nprofile = \"gentle.toml\"\n"));
    REQUIRE(by_hand);
    CHECK(by_hand->lenses[0].name == "85 mm f/1.8");
    CHECK(by_hand->lenses[0].profile == folder.path("gentle.toml"));
    CHECK(by_hand->bodies.empty());
}

TEST_CASE("what is wrong in a bag is told with its place", "[scene_file][property]") {
    const SceneFolder folder;
    const auto bad = read_bag(folder.write("bag.toml", "[[lens]]\nfocal_length_mm = 85\n"));
    REQUIRE_FALSE(bad);
    CHECK(bad.error().front().what == "a lens lacks `widest_f_number`");
    CHECK(bad.error().front().where.line == 1);
    CHECK_FALSE(read_bag(folder.write("bag.toml", "[[lense]]\n")));
    CHECK_FALSE(read_bag(folder.write("bag.toml", "[[")));
}
