#include "scene/settle.h"

#include "scene/arms_round.h"
#include "scene/camera_view.h"
#include "scene/ground_plan.h"

#include "figures/posture/carry.h"
#include "figures/posture/spots.h"

#include <glm/geometric.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

namespace backrow::scene {
namespace {

using figures::Posture;

/// The height of what lies before the step on which somebody sits: the next row's floor in front,
/// where its riser reaches so far, or the ground at the mark.
double floor_before_m(const Person& sitter, const std::vector<RowOfPeople>& rows) {
    constexpr double beside_m = 0.3;
    double floor_m = std::min(0.0, sitter.place.up_m);
    double nearest_m = longest_riser_m;
    for (const RowOfPeople& row : rows) {
        const double across_m = sitter.place.across_m;
        if (across_m < row.front()->place.across_m - beside_m ||
            across_m > row.back()->place.across_m + beside_m)
            continue;
        const Person& before = **std::ranges::min_element(row, {}, [&](const Person* person) {
            return std::abs(person->place.across_m - across_m);
        });
        const double in_front_m = sitter.place.back_m - before.place.back_m;
        if (in_front_m <= 0 || in_front_m > nearest_m || before.place.up_m >= sitter.place.up_m)
            continue;
        nearest_m = in_front_m;
        floor_m = before.place.up_m;
    }
    return floor_m;
}

void put_feet_down(std::vector<Person>& people) {
    std::vector<RowOfPeople> rows;
    for (Person& person : people) {
        if (person.pose.posture != Posture::on_step)
            continue;
        if (rows.empty())
            rows = rows_of(people);
        person.pose.step_m = std::clamp(person.place.up_m - floor_before_m(person, rows), 0.0,
                                        figures::highest_step_m(person.measures));
    }
}

/// +1 for the left hip, −1 for the right one.
double side_with_more_room(const std::vector<Person>& people, std::size_t carrier) {
    const Person& who = people[carrier];
    const glm::dvec3 left = figures::bearing(figure_of(who)).left;
    const glm::dvec3 here = engine_from_mark(who.place);
    constexpr double beside_m = 0.5;
    double room_left_m = std::numeric_limits<double>::infinity();
    double room_right_m = room_left_m;
    for (std::size_t i = 0; i < people.size(); ++i) {
        if (i == carrier || people[i].carrier >= 0)
            continue;
        const glm::dvec3 off = engine_from_mark(people[i].place) - here;
        const double to_the_left_m = glm::dot(off, left);
        if (glm::length(off - left * to_the_left_m) > beside_m)
            continue;
        double& room_m = to_the_left_m > 0 ? room_left_m : room_right_m;
        room_m = std::min(room_m, std::abs(to_the_left_m));
    }
    return room_right_m > room_left_m ? -1 : 1;
}

void lift_children(std::vector<Person>& people) {
    for (Person& child : people) {
        if (child.carrier < 0)
            continue;
        const auto index = static_cast<std::size_t>(child.carrier);
        Person& carrier = people[index];
        child.place = carrier.place;
        child.speed_mps = carrier.speed_mps;
        child.heading_deg = carrier.heading_deg;
        const figures::Carrying both = figures::carry(figure_of(carrier), figure_of(child),
                                                      side_with_more_room(people, index));
        child.pose = both.child;
        carrier.pose.holds = both.holds;
    }
}

}  // namespace

void settle(std::vector<Person>& people) {
    for (Person& person : people)
        person.pose.holds = {};
    put_feet_down(people);
    lift_children(people);
    lay_arms(people);
}

Person hands_off(Person person) {
    person.pose.holds = {};
    return person;
}

std::size_t on_whose_feet(const std::vector<Person>& people, std::size_t person) {
    const int carrier = people[person].carrier;
    return carrier < 0 ? person : static_cast<std::size_t>(carrier);
}

}  // namespace backrow::scene
