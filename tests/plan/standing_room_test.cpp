#include "plan/advice/standing_room.h"

#include "posed.h"
#include "scene/risers.h"

#include <catch2/catch.hpp>

using namespace backrow;
using namespace backrow::plan;

namespace {

/// In rows of one: a metre apart, the second on a riser of 30 cm.
std::vector<scene::Person> one_on_a_riser() {
    std::vector<scene::Person> people{somebody("Ana", {}),
                                      somebody("Ben", {.up_m = 0.3, .back_m = 0.6})};
    people[0].row = 0;
    people[1].row = 1;
    return people;
}

/// Two who sit side by side, so far apart.
std::vector<scene::Person> two_seated(double apart_m) {
    std::vector<scene::Person> people{somebody("Ana", {}), somebody("Ben", {.across_m = apart_m})};
    for (scene::Person& person : people) {
        person.row = 0;
        person.pose.posture = figures::Posture::seated;
    }
    return people;
}

bool stays(const MoveRange& range) {
    return range.from_cm == 0 && range.to_cm == 0;
}

}  // namespace

TEST_CASE("who stands on open ground may step as far as asked", "[plan][property]") {
    const auto rooms = standing_room({somebody("Ana", {})}, 30);
    CHECK(rooms[0].from_cm == -30);
    CHECK(rooms[0].to_cm == 30);
}

// A riser begins a hand's breadth before the shoes (risers.cpp); the limits are read off the
// blocks.
TEST_CASE("nobody steps off a riser, or into one", "[plan][property]") {
    const auto people = one_on_a_riser();
    const auto risers = scene::risers_under(people);
    REQUIRE(risers.size() == 1);
    const auto rooms = standing_room(people, 200);
    const double steps_forward_m = 0.01 * rooms[1].from_cm;
    CHECK(people[1].place.back_m + steps_forward_m > risers[0].near_back_m);
    CHECK(rooms[1].from_cm < 0);
    CHECK(rooms[1].from_cm > -20);
    CHECK(people[1].place.back_m + 0.01 * rooms[1].to_cm < risers[0].far_back_m);
    CHECK(people[0].place.back_m + 0.01 * rooms[0].to_cm < risers[0].near_back_m);
    CHECK(rooms[0].from_cm == -200);
}

TEST_CASE("who shares a bench keeps the seat, and a chair is moved", "[plan][property]") {
    const auto bench = standing_room(two_seated(0.6), 30);
    CHECK(stays(bench[0]));
    CHECK(stays(bench[1]));
    const auto chairs = standing_room(two_seated(3), 30);
    CHECK_FALSE(stays(chairs[0]));
    CHECK_FALSE(stays(chairs[1]));
}

TEST_CASE("who sits on a step stays there", "[plan][property]") {
    auto people = one_on_a_riser();
    people[1].pose.posture = figures::Posture::on_step;
    CHECK(stays(standing_room(people, 30)[1]));
}

TEST_CASE("whoever is carried may go where the carrier goes", "[plan][property]") {
    auto people = one_on_a_riser();
    people[0].carrier = 1;
    CHECK(standing_room(people, 30)[0].from_cm == -30);
}
