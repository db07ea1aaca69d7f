#include "scene/seats.h"

#include "scene/camera_view.h"
#include "scene/ground_plan.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace backrow::scene {
namespace {

// Carpentry, by eye.
constexpr double same_seat_m = 0.01;  // cloth gives by that much
constexpr double seat_gap_m = 0.02;   // between a seat and the calves before it
constexpr double half_seat_per_stature = 0.13;
constexpr double bench_gap_m = 0.80;  // neighbours farther apart have seats of their own
constexpr double bench_stagger_m = 0.10;

/// One person's seat, or the bench of several.
struct Seat {
    double top_m = 0;
    double ground_m = 0;
    Patch patch;
    double back_m = 0;  ///< Of the last one who sat down.
    double last_across_m = 0;
    std::vector<Patch> legs;  ///< What the seat must stay clear of.
};

// Pulls a seat back from the legs along the direction that costs it least.
void clear_of(const Patch& legs, Patch& seat) {
    if (!overlap(legs, seat))
        return;
    const double from_front_m = legs.far_m + seat_gap_m - seat.near_m;
    const double from_left_m = legs.right_m + seat_gap_m - seat.left_m;
    const double from_right_m = seat.right_m - (legs.left_m - seat_gap_m);
    const double from_behind_m = seat.far_m - (legs.near_m - seat_gap_m);
    const double least_m = std::min({from_front_m, from_left_m, from_right_m, from_behind_m});
    if (least_m == from_front_m)
        seat.near_m += from_front_m;
    else if (least_m == from_left_m)
        seat.left_m += from_left_m;
    else if (least_m == from_right_m)
        seat.right_m -= from_right_m;
    else
        seat.far_m -= from_behind_m;
}

std::optional<Seat> seat_of(const Person& person) {
    const double height_m = figures::seat_height_m(figure_of(person));
    if (height_m <= 0)
        return std::nullopt;
    const double half_m = half_seat_per_stature * person.measures.stature_m;
    const FromMark& place = person.place;
    Seat seat{.top_m = place.up_m + height_m,
              .ground_m = place.up_m,
              .patch = {place.across_m - half_m, place.across_m + half_m, place.back_m - half_m,
                        place.back_m + half_m},
              .back_m = place.back_m,
              .last_across_m = place.across_m,
              .legs = {}};
    seat.legs.push_back(shadow_below(person, seat.top_m));
    clear_of(seat.legs.front(), seat.patch);
    if (seat.patch.empty())
        return std::nullopt;
    return seat;
}

// The two as one bench, or nothing where they do not go together.
std::optional<Seat> bench_of(const Seat& left, const Seat& right) {
    if (std::abs(left.top_m - right.top_m) > same_seat_m ||
        !on_one_level(left.ground_m, right.ground_m) ||
        std::abs(left.back_m - right.back_m) > bench_stagger_m ||
        right.last_across_m - left.last_across_m > bench_gap_m)
        return std::nullopt;
    Seat bench = right;
    bench.top_m = std::min(left.top_m, right.top_m);
    bench.patch = {left.patch.left_m, right.patch.right_m,
                   std::max(left.patch.near_m, right.patch.near_m),
                   std::max(left.patch.far_m, right.patch.far_m)};
    bench.legs.insert(bench.legs.end(), left.legs.begin(), left.legs.end());
    if (std::ranges::any_of(bench.legs,
                            [&](const Patch& legs) { return overlap(legs, bench.patch); }))
        return std::nullopt;
    return bench;
}

void add_seats(const RowOfPeople& row, std::vector<Seat>& seats) {
    bool neighbours = false;
    for (const Person* person : row) {
        const auto seat = seat_of(*person);
        if (seat) {
            const auto bench = neighbours ? bench_of(seats.back(), *seat) : std::nullopt;
            if (bench)
                seats.back() = *bench;
            else
                seats.push_back(*seat);
        }
        neighbours = seat.has_value();
    }
}

std::vector<Seat> seats_of(const std::vector<Person>& people) {
    std::vector<Seat> seats;
    for (const RowOfPeople& row : rows_of(people))
        add_seats(row, seats);
    for (const Person& person : people)
        if (person.row < 0)
            add_seats({&person}, seats);
    return seats;
}

}  // namespace

std::vector<setting::Block> seats_under(const std::vector<Person>& people) {
    std::vector<setting::Block> blocks;
    for (const Seat& seat : seats_of(people)) {
        setting::Block block = block_on(seat.patch, seat.top_m);
        block.kind = setting::BlockKind::seat;
        block.foot_m = seat.ground_m;
        blocks.push_back(block);
    }
    return blocks;
}

}  // namespace backrow::scene
