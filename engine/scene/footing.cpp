#include "scene/footing.h"

#include "scene/camera_view.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <optional>

namespace backrow::scene {
namespace {

// Carpentry, by eye: what a riser leaves round the shoes, and how deep one is by itself.
constexpr double lip_m = 0.08;
constexpr double side_margin_m = 0.20;
constexpr double riser_depth_m = 0.50;
constexpr double longest_riser_m = 1.50;  // a row farther behind has a riser of its own
constexpr double least_overlap_m = 0.03;  // of a block under the line of the ankles
constexpr double same_level_m = 0.001;    // of feet
constexpr double same_seat_m = 0.01;      // cloth gives by that much
constexpr double above_ankles_m = 0.15;   // what is lower belongs to feet, or to legs that kneel
constexpr double seat_gap_m = 0.02;       // between a seat and the calves before it
constexpr double half_seat_per_stature = 0.13;
constexpr double bench_gap_m = 0.80;  // neighbours farther apart have seats of their own
constexpr double bench_stagger_m = 0.10;

/// A rectangle on the ground, in the mark's words.
struct Patch {
    double left_m = std::numeric_limits<double>::infinity();
    double right_m = -std::numeric_limits<double>::infinity();
    double near_m = std::numeric_limits<double>::infinity();
    double far_m = -std::numeric_limits<double>::infinity();

    [[nodiscard]] bool empty() const { return left_m >= right_m || near_m >= far_m; }
};

Patch around(const Patch& a, const Patch& b) {
    return {std::min(a.left_m, b.left_m), std::max(a.right_m, b.right_m),
            std::min(a.near_m, b.near_m), std::max(a.far_m, b.far_m)};
}

bool side_by_side(const Patch& a, const Patch& b) {
    return a.right_m <= b.left_m || b.right_m <= a.left_m;
}

bool overlap(const Patch& a, const Patch& b) {
    return !side_by_side(a, b) && a.far_m > b.near_m && b.far_m > a.near_m;
}

// The shadow, straight down, of those parts of a body whose middle line lies below a height.
Patch shadow_below(const Person& person, double height_m) {
    Patch shadow;
    for (const figures::Capsule& solid : solids(person)) {
        glm::dvec3 low = solid.from_m;
        glm::dvec3 high = solid.to_m;
        if (low.y > high.y)
            std::swap(low, high);
        if (low.y >= height_m)
            continue;
        if (high.y > height_m)
            high = low + (high - low) * ((height_m - low.y) / (high.y - low.y));
        for (const glm::dvec3& end : {low, high})
            shadow = around(shadow, {end.x - solid.radius_m, end.x + solid.radius_m,
                                     -end.z - solid.radius_m, -end.z + solid.radius_m});
    }
    return shadow;
}

/// Neighbours on one level.
struct Run {
    double up_m = 0;
    bool alone = false;
    Patch feet{};
    double nearest_ankle_m = std::numeric_limits<double>::infinity();
    double farthest_ankle_m = -std::numeric_limits<double>::infinity();

    void add(const Person& person) {
        feet = around(feet, shadow_below(person, person.place.up_m + above_ankles_m));
        nearest_ankle_m = std::min(nearest_ankle_m, person.place.back_m);
        farthest_ankle_m = std::max(farthest_ankle_m, person.place.back_m);
    }
    void add(const Run& other) {
        feet = around(feet, other.feet);
        nearest_ankle_m = std::min(nearest_ankle_m, other.nearest_ankle_m);
        farthest_ankle_m = std::max(farthest_ankle_m, other.farthest_ankle_m);
    }
    [[nodiscard]] double middle_m() const { return 0.5 * (nearest_ankle_m + farthest_ankle_m); }
    [[nodiscard]] bool raised() const { return up_m > 0; }
};

bool on_one_level(double a_m, double b_m) {
    return std::abs(a_m - b_m) < same_level_m;
}

using Row = std::vector<const Person*>;

// Every row from picture left to right.
std::map<int, Row> rows_of(const std::vector<Person>& people) {
    std::map<int, Row> rows;
    for (const Person& person : people)
        if (person.row >= 0)
            rows[person.row].push_back(&person);
    for (auto& [index, row] : rows)
        std::ranges::stable_sort(row, {},
                                 [](const Person* person) { return person->place.across_m; });
    return rows;
}

void add_runs(const Row& row, std::vector<Run>& runs) {
    bool fresh = true;
    for (const Person* person : row) {
        if (fresh || !on_one_level(runs.back().up_m, person->place.up_m))
            runs.push_back({.up_m = person->place.up_m});
        runs.back().add(*person);
        fresh = false;
    }
}

void add_alone(const Person& person, std::vector<Run>& steps) {
    Run step{.up_m = person.place.up_m, .alone = true};
    step.add(person);
    const auto touches = [&](const Run& other) {
        Patch wider = step.feet;
        wider.left_m -= 2 * lip_m;
        wider.right_m += 2 * lip_m;
        wider.near_m -= 2 * lip_m;
        wider.far_m += 2 * lip_m;
        return on_one_level(other.up_m, step.up_m) && overlap(other.feet, wider);
    };
    // A step that grows may touch others in turn.
    for (auto found = std::ranges::find_if(steps, touches); found != steps.end();
         found = std::ranges::find_if(steps, touches)) {
        step.add(*found);
        steps.erase(found);
    }
    steps.push_back(step);
}

std::vector<Run> runs_of(const std::vector<Person>& people) {
    std::vector<Run> runs;
    for (const auto& [index, row] : rows_of(people))
        add_runs(row, runs);
    std::vector<Run> steps;
    for (const Person& person : people)
        if (person.row < 0)
            add_alone(person, steps);
    runs.insert(runs.end(), steps.begin(), steps.end());
    return runs;
}

// Where the block of the run in front ends and that of the run behind begins, when their shoes
// leave no room for two lips: half way, but never away from under anybody's ankles.
double edge_between_m(const Run& front, const Run& behind) {
    return 0.5 * (front.feet.far_m + behind.feet.near_m);
}

Patch riser_of(const Run& run, const std::vector<Run>& runs) {
    Patch riser = run.feet;
    const double side_m = run.alone ? lip_m : side_margin_m;
    riser.left_m -= side_m;
    riser.right_m += side_m;
    riser.near_m -= lip_m;
    riser.far_m += lip_m;
    if (!run.alone)
        riser.far_m = std::max(riser.far_m, run.farthest_ankle_m + riser_depth_m);

    const Run* next = nullptr;  // the run right behind, and where a block of its own would begin
    double next_m = std::numeric_limits<double>::infinity();
    for (const Run& other : runs) {
        if (&other == &run || side_by_side(other.feet, riser))
            continue;
        if (other.middle_m() < run.middle_m()) {
            riser.near_m = std::max(riser.near_m, edge_between_m(other, run));
        } else if (other.middle_m() > run.middle_m()) {
            const double edge_m = std::max(other.feet.near_m - lip_m, edge_between_m(run, other));
            if (edge_m < next_m) {
                next = &other;
                next_m = edge_m;
            }
        }
    }
    const bool reaches_back = next != nullptr && next->raised() && !next->alone && !run.alone &&
                              next_m - run.farthest_ankle_m <= longest_riser_m;
    riser.far_m = reaches_back ? next_m : std::min(riser.far_m, next_m);
    riser.near_m = std::min(riser.near_m, run.nearest_ankle_m - least_overlap_m);
    riser.far_m = std::max(riser.far_m, run.farthest_ankle_m + least_overlap_m);
    return riser;
}

setting::Block block_on(const Patch& patch, double top_m) {
    return {.left_m = patch.left_m,
            .right_m = patch.right_m,
            .near_back_m = patch.near_m,
            .far_back_m = patch.far_m,
            .top_m = top_m};
}

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

void add_seats(const Row& row, std::vector<Seat>& seats) {
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
    for (const auto& [index, row] : rows_of(people))
        add_seats(row, seats);
    for (const Person& person : people)
        if (person.row < 0)
            add_seats({&person}, seats);
    return seats;
}

}  // namespace

std::vector<setting::Block> blocks_under(const std::vector<Person>& people) {
    std::vector<setting::Block> blocks;
    const std::vector<Run> runs = runs_of(people);
    for (const Run& run : runs)
        if (run.raised())
            blocks.push_back(block_on(riser_of(run, runs), run.up_m));
    for (const Seat& seat : seats_of(people))
        blocks.push_back(block_on(seat.patch, seat.top_m));
    return blocks;
}

}  // namespace backrow::scene
