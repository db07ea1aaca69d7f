#include "scene/footing.h"

#include "group.h"

#include "scene/camera_view.h"
#include "scene/settle.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using backrow::figures::Posture;
using Catch::Matchers::WithinAbs;

namespace backrow::scene {
namespace {

bool covers(const setting::Block& block, double across_m, double back_m) {
    return block.left_m <= across_m && across_m <= block.right_m && block.near_back_m <= back_m &&
           back_m <= block.far_back_m;
}

// The highest block under a person's own spot, or the ground.
double floor_under(const std::vector<setting::Block>& blocks, const FromMark& place) {
    double floor_m = 0;
    for (const setting::Block& block : blocks)
        if (covers(block, place.across_m, place.back_m))
            floor_m = std::max(floor_m, block.top_m);
    return floor_m;
}

void check_everybody_stands_on_something(const std::vector<Person>& people) {
    const auto blocks = blocks_under(people);
    for (const Person& person : people) {
        CAPTURE(person.name);
        CHECK(floor_under(blocks, person.place) == person.place.up_m);
    }
    for (const setting::Block& block : blocks) {
        CHECK(block.left_m < block.right_m);
        CHECK(block.near_back_m < block.far_back_m);
        CHECK(block.top_m > 0);
    }
}

// How far a leg reaches into a seat: the shins and feet of everybody, as balls along their middle.
double deepest_leg_m(const std::vector<Person>& people, const setting::Block& seat) {
    double deepest_m = 0;
    for (const Person& person : people)
        for (const figures::Capsule& solid : solids(person))
            for (double t = 0; t <= 1; t += 0.05) {
                const glm::dvec3 at = solid.from_m + t * (solid.to_m - solid.from_m);
                if (at.y > seat.top_m - 0.12)
                    continue;
                const double inside_m = std::min({at.x + solid.radius_m - seat.left_m,
                                                  seat.right_m - (at.x - solid.radius_m),
                                                  -at.z + solid.radius_m - seat.near_back_m,
                                                  seat.far_back_m - (-at.z - solid.radius_m)});
                deepest_m = std::max(deepest_m, inside_m);
            }
    return deepest_m;
}

}  // namespace

TEST_CASE("nobody on the ground needs a block", "[scene][property]") {
    CHECK(blocks_under(rows_at({0, 0, 0})).empty());
}

TEST_CASE("everybody in raised rows stands on something", "[scene][property]") {
    check_everybody_stands_on_something(rows_at({0, 0.2, 0.4, 0.6}));
    check_everybody_stands_on_something(rows_at({0.3, 0, 0.3}));
    check_everybody_stands_on_something(rows_at({0.6, 0.4, 0.2}));
    // So close that shoes overlap in plan.
    check_everybody_stands_on_something(rows_at({0, 0.3, 0.6}, 0.25));
}

TEST_CASE("one riser a row, reaching to the row behind", "[scene][property]") {
    const auto people = rows_at({0, 0.2, 0.4});
    const auto blocks = blocks_under(people);
    REQUIRE(blocks.size() == 2);
    CHECK(blocks[0].top_m == 0.2);
    CHECK(blocks[1].top_m == 0.4);
    CHECK(blocks[0].far_back_m == blocks[1].near_back_m);
    // The last is half a metre deep behind its ankles, at 1.6 m.
    CHECK_THAT(blocks[1].far_back_m, WithinAbs(2.1, 1e-9));
    for (const setting::Block& block : blocks) {
        CHECK(block.left_m < -0.825 - 0.2);
        CHECK(block.right_m > 0.825 + 0.2);
    }
    // In front there is room for the toes, not for another row.
    CHECK(blocks[0].near_back_m < 0.8 - 0.15);
    CHECK(blocks[0].near_back_m > 0.8 - 0.45);
}

TEST_CASE("a far row behind leaves the riser half a metre deep", "[scene][property]") {
    const auto blocks = blocks_under(rows_at({0.2, 0.4}, 4.0));
    REQUIRE(blocks.size() == 2);
    CHECK_THAT(blocks[0].far_back_m, WithinAbs(0.5, 1e-9));
}

TEST_CASE("somebody lifted within a row has a step, the neighbours keep their floor",
          "[scene][property]") {
    auto people = rows_at({0, 0.2});
    people[1].place.up_m = 0.15;
    people[6].place.up_m = 0.35;
    check_everybody_stands_on_something(people);
    CHECK(blocks_under(people).size() == 1 + 3);
}

TEST_CASE("people alone get steps, shared where they touch", "[scene][property]") {
    const std::vector<Person> people{
        somebody("a", {0, 0.3, 0}, -1), somebody("b", {0.4, 0.3, 0}, -1),
        somebody("c", {3, 0.3, 0}, -1), somebody("d", {3.4, 0.5, 0}, -1),
        somebody("e", {-3, 0, 0}, -1)};
    check_everybody_stands_on_something({people[0], people[1], people[2], people[4]});
    CHECK(blocks_under(people).size() == 3);
}

TEST_CASE("everybody seated has a seat at their own height", "[scene][property]") {
    for (int turn_deg = -180; turn_deg <= 180; turn_deg += 15) {
        CAPTURE(turn_deg);
        for (const double stature_m : {0.9, 1.3, 1.7, 2.0}) {
            CAPTURE(stature_m);
            Person sitter = somebody("a", {0.5, 0.2, 1}, -1, Posture::seated);
            sitter.measures = figures::body_measures(stature_m, std::nullopt);
            sitter.pose.turn_deg = turn_deg;
            const auto blocks = blocks_under({sitter});
            REQUIRE(blocks.size() == 2);
            const setting::Block& seat = blocks[1];
            CHECK(seat.top_m == 0.2 + figures::seat_height_m(figure_of(sitter)));
            CHECK(covers(seat, sitter.place.across_m, sitter.place.back_m));
            // A box about a turned leg is larger than the leg, so the seat never comes this near.
            CHECK(deepest_leg_m({sitter}, seat) == 0);
        }
    }
}

TEST_CASE("neighbours in a row share a bench where nobody's legs are in the way",
          "[scene][property]") {
    std::vector<Person> people = rows_at({0});
    for (Person& person : people)
        person.pose.posture = Posture::seated;
    SECTION("all facing the camera") {
        const auto benches = blocks_under(people);
        REQUIRE(benches.size() == 1);
        for (const Person& person : people)
            CHECK(covers(benches[0], person.place.across_m, person.place.back_m));
        CHECK(deepest_leg_m(people, benches[0]) == 0);
    }
    SECTION("the ends turned inwards and outwards") {
        people[0].pose.turn_deg = 30;
        people[3].pose.turn_deg = GENERATE(-30, 60, 90, 180);
        const auto benches = blocks_under(people);
        CHECK_FALSE(benches.empty());
        for (const auto& bench : benches)
            CHECK(deepest_leg_m(people, bench) == 0);
    }
    SECTION("one of them much smaller") {
        people[1].measures = figures::body_measures(1.2, std::nullopt);
        CHECK(blocks_under(people).size() == 3);
    }
    SECTION("one of them standing") {
        people[1].pose.posture = Posture::standing;
        CHECK(blocks_under(people).size() == 2);
    }
}

TEST_CASE("whoever sits on a step has it under the seat and not through the calves",
          "[scene][property]") {
    for (const double up_m : {0.17, 0.34, 0.45, 0.9})
        for (const double stature_m : {1.1, 1.7})
            for (const int row : {0, -1}) {
                CAPTURE(up_m, stature_m, row);
                std::vector<Person> people{somebody("a", {0, up_m, 1}, row, Posture::on_step),
                                           somebody("b", {0.6, up_m, 1}, row, Posture::on_step)};
                people[1].measures = figures::body_measures(stature_m, std::nullopt);
                settle(people);
                const auto blocks = blocks_under(people);
                REQUIRE_FALSE(blocks.empty());
                for (const setting::Block& block : blocks) {
                    CHECK(block.top_m == up_m);
                    CHECK(deepest_leg_m(people, block) <= 0);
                }
                for (const Person& person : people)
                    CHECK(floor_under(blocks, person.place) == up_m);
            }
}

TEST_CASE("kneeling and crouching people need no seat", "[scene][property]") {
    for (const Posture posture : {Posture::kneeling, Posture::crouching}) {
        CHECK(blocks_under({somebody("a", {}, 0, posture)}).empty());
        check_everybody_stands_on_something({somebody("a", {0, 0.3, 0}, 0, posture)});
    }
}

}  // namespace backrow::scene
