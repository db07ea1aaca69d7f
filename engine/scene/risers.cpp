#include "scene/risers.h"

#include "scene/ground_plan.h"

#include <algorithm>
#include <limits>

namespace backrow::scene {
namespace {

// Carpentry, by eye: what a riser leaves round the shoes, and how deep one is by itself.
constexpr double lip_m = 0.08;
constexpr double side_margin_m = 0.20;
constexpr double riser_depth_m = 0.50;
constexpr double least_overlap_m = 0.03;  // of a block under the line of the ankles
constexpr double above_ankles_m = 0.15;   // what is lower belongs to feet, or to legs that kneel

constexpr double calf_gap_m = 0.02;  // between an edge and the calves of who sits on it
constexpr double seat_half_per_stature = 0.13;

bool sits_on_step(const Person& person) {
    return person.pose.posture == figures::Posture::on_step;
}

/// How far towards the camera the step under somebody may reach: not into their calves.
double edge_under_m(const Person& sitter) {
    const Patch legs = shadow_below(sitter, sitter.place.up_m);
    const double half_m = seat_half_per_stature * sitter.measures.stature_m;
    const double least_m = sitter.place.back_m - half_m;
    return legs.empty() ? least_m : std::max(legs.far_m + calf_gap_m, least_m);
}

/// What somebody needs of a level: room for the feet, or a seat behind its edge.
Patch footprint(const Person& person) {
    if (!sits_on_step(person))
        return shadow_below(person, person.place.up_m + above_ankles_m);
    const double half_m = seat_half_per_stature * person.measures.stature_m;
    const FromMark& place = person.place;
    return {place.across_m - half_m, place.across_m + half_m, edge_under_m(person) + lip_m,
            place.back_m + half_m};
}

/// Neighbours on one level.
struct Run {
    double up_m = 0;
    bool alone = false;
    Patch feet{};
    double edge_m = -std::numeric_limits<double>::infinity();  ///< Of whoever sits on it.
    double nearest_ankle_m = std::numeric_limits<double>::infinity();
    double farthest_ankle_m = -std::numeric_limits<double>::infinity();

    void add(const Person& person) {
        feet = around(feet, footprint(person));
        // Of several who sit on one edge, it is drawn back for the shortest thighs.
        if (sits_on_step(person))
            edge_m = std::max(edge_m, edge_under_m(person));
        nearest_ankle_m = std::min(nearest_ankle_m, person.place.back_m);
        farthest_ankle_m = std::max(farthest_ankle_m, person.place.back_m);
    }
    void add(const Run& other) {
        feet = around(feet, other.feet);
        edge_m = std::max(edge_m, other.edge_m);
        nearest_ankle_m = std::min(nearest_ankle_m, other.nearest_ankle_m);
        farthest_ankle_m = std::max(farthest_ankle_m, other.farthest_ankle_m);
    }
    [[nodiscard]] double middle_m() const { return 0.5 * (nearest_ankle_m + farthest_ankle_m); }
    [[nodiscard]] bool raised() const { return up_m > 0; }
};

void add_runs(const RowOfPeople& row, std::vector<Run>& runs) {
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
    for (const RowOfPeople& row : rows_of(people))
        add_runs(row, runs);
    std::vector<Run> steps;
    for (const Person& person : people)
        if (person.row < 0 && person.carrier < 0)
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
    riser.near_m = std::max(riser.near_m, run.edge_m);
    riser.near_m = std::min(riser.near_m, run.nearest_ankle_m - least_overlap_m);
    riser.far_m = std::max(riser.far_m, run.farthest_ankle_m + least_overlap_m);
    return riser;
}

}  // namespace

std::vector<setting::Block> risers_under(const std::vector<Person>& people) {
    std::vector<setting::Block> blocks;
    const std::vector<Run> runs = runs_of(people);
    for (const Run& run : runs)
        if (run.raised())
            blocks.push_back(block_on(riser_of(run, runs), run.up_m));
    return blocks;
}

}  // namespace backrow::scene
