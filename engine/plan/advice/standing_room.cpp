#include "plan/advice/standing_room.h"

#include "plan/advice/whole_cm.h"
#include "scene/ground_plan.h"
#include "scene/risers.h"
#include "scene/seats.h"

#include <algorithm>
#include <limits>

namespace backrow::plan {
namespace {

/// What is lower belongs to feet, or to legs that kneel.
constexpr double above_ankles_m = 0.15;

bool is_on(const scene::Person& person, const setting::Block& block) {
    return person.place.across_m > block.left_m && person.place.across_m < block.right_m &&
           person.place.back_m > block.near_back_m && person.place.back_m < block.far_back_m;
}

bool keeps_seat(const scene::Person& person, const std::vector<scene::Person>& people,
                const std::vector<setting::Block>& seats) {
    if (person.pose.posture == figures::Posture::on_step)
        return true;
    if (person.pose.posture != figures::Posture::seated)
        return false;
    return std::ranges::any_of(seats, [&](const setting::Block& seat) {
        const auto sits_here = [&](const scene::Person& other) {
            return other.pose.posture == figures::Posture::seated && other.carrier < 0 &&
                   is_on(other, seat);
        };
        return sits_here(person) && std::ranges::count_if(people, sits_here) > 1;
    });
}

MoveRange room_of(const scene::Person& person, const std::vector<setting::Block>& risers,
                  int most_cm) {
    MoveRange range{-most_cm, most_cm};
    // A chair is about as deep as who sits on it.
    const bool sits = person.pose.posture == figures::Posture::seated;
    const double below_m =
        sits ? std::numeric_limits<double>::infinity() : person.place.up_m + above_ankles_m;
    const scene::Patch feet = scene::shadow_below(person, below_m);
    if (feet.empty())
        return range;
    const auto forward_to = [&](double edge_m) {
        range.from_cm = std::max(range.from_cm, -std::max(0, whole_cm(feet.near_m - edge_m)));
    };
    const auto back_to = [&](double edge_m) {
        range.to_cm = std::min(range.to_cm, std::max(0, whole_cm(edge_m - feet.far_m)));
    };
    for (const setting::Block& riser : risers) {
        if (riser.right_m <= feet.left_m || riser.left_m >= feet.right_m)
            continue;
        if (scene::on_one_level(riser.top_m, person.place.up_m) && is_on(person, riser)) {
            forward_to(riser.near_back_m);
            back_to(riser.far_back_m);
        } else if (riser.near_back_m >= person.place.back_m) {
            back_to(riser.near_back_m);
        } else if (riser.far_back_m <= person.place.back_m) {
            forward_to(riser.far_back_m);
        }
    }
    return range;
}

}  // namespace

std::vector<MoveRange> standing_room(const std::vector<scene::Person>& people, int most_cm) {
    const std::vector<setting::Block> risers = scene::risers_under(people);
    const std::vector<setting::Block> seats = scene::seats_under(people);
    std::vector<MoveRange> rooms;
    for (const scene::Person& person : people)
        if (person.carrier >= 0)
            rooms.push_back({-most_cm, most_cm});
        else if (keeps_seat(person, people, seats))
            rooms.push_back({0, 0});
        else
            rooms.push_back(room_of(person, risers, most_cm));
    return rooms;
}

}  // namespace backrow::plan
