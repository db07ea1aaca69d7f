#include "rehearsal/hands/group_handling.h"

#include "rehearsal/hands/hand_words.h"
#include "rehearsal/hands/row_handling.h"

#include "scene/limits.h"
#include "scene/rows.h"
#include "scene/set_words.h"
#include "scene/settle.h"

#include "base/units.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <string>
#include <vector>

namespace backrow::rehearsal {
namespace {

/// Rows of two or more of which everybody is among these.
std::vector<int> rows_among(const scene::Scene& scene, std::span<const std::size_t> people) {
    std::map<int, std::size_t> left;
    for (const scene::Person& person : scene.people)
        ++left[person.row];
    left.erase(-1);
    std::erase_if(left, [](const auto& row) { return row.second < 2; });
    for (const std::size_t person : people)
        if (const auto row = left.find(scene.people[person].row); row != left.end())
            --row->second;
    std::vector<int> rows;
    for (const auto& [row, missing] : left)
        if (missing == 0)
            rows.push_back(row);
    return rows;
}

/// "row.1.people.3"
std::string place_in_row(const scene::Scene& scene, std::size_t person) {
    const int row = scene.people[person].row;
    const auto before = scene.people.begin() + static_cast<std::ptrdiff_t>(person);
    return fmt::format("row.{}.people.{}", row,
                       std::count_if(scene.people.begin(), before,
                                     [&](const auto& other) { return other.row == row; }));
}

/// Whoever leaves a row for a place alone needs a table of their own, so across_m is always said.
void take_steps_of(const scene::Person& who, const scene::Person& other, Change& change) {
    if (who.own.across_m != other.own.across_m || other.row < 0)
        change.values.push_back(scene::set_person_number(who.name, "across_m", other.own.across_m));
    if (who.own.back_m != other.own.back_m)
        change.values.push_back(scene::set_person_number(who.name, "back_m", other.own.back_m));
    if (who.own.up_m != other.own.up_m)
        change.values.push_back(scene::set_person_number(who.name, "up_m", other.own.up_m));
}

/// Where a step leads, to the centimetre; whoever takes none stays where they are to the hair.
double stepped_m(double own_m, double step_m) {
    return to_the_centimetre(step_m) == 0 ? own_m : to_the_centimetre(own_m + step_m);
}

/// Whoever is carried goes with the one who carries; each once.
std::vector<std::size_t> on_their_feet(const scene::Scene& scene,
                                       std::span<const std::size_t> people) {
    std::vector<std::size_t> feet;
    for (const std::size_t person : people)
        if (const std::size_t who = on_whose_feet(scene.people, person);
            std::ranges::find(feet, who) == feet.end())
            feet.push_back(who);
    return feet;
}

}  // namespace

Change step(const scene::Scene& scene, std::span<const std::size_t> asked, double across_m,
            double back_m) {
    const std::vector<std::size_t> people = on_their_feet(scene, asked);
    const double away_m = to_the_centimetre(back_m);
    Change change;
    const std::vector<int> whole_rows = rows_among(scene, people);
    for (const int row : whole_rows)
        if (away_m != 0)
            change.values.push_back(
                scene::set_number(fmt::format("row.{}.back_m", row),
                                  to_the_centimetre(scene::row_line(scene, row).back_m + away_m)));
    for (const std::size_t person : people) {
        const scene::Person& who = scene.people[person];
        const bool goes_with_row = std::ranges::find(whole_rows, who.row) != whole_rows.end();
        const double own_across_m = stepped_m(who.own.across_m, across_m);
        const double own_back_m =
            goes_with_row ? who.own.back_m : stepped_m(who.own.back_m, back_m);
        if (own_across_m != who.own.across_m)
            change.values.push_back(scene::set_person_number(who.name, "across_m", own_across_m));
        if (own_back_m != who.own.back_m)
            change.values.push_back(scene::set_person_number(who.name, "back_m", own_back_m));
    }
    if (!change.values.empty())
        change.what = "Lead " + who_words(scene, people);
    return change;
}

Change line_up(const scene::Scene& scene, const scene::CameraView& view,
               std::span<const std::size_t> asked) {
    // A metre back along the ground is this much along the axis.
    const double axial_of_back = -view.forward.z;
    constexpr double least = 0.1;
    Change change;
    if (std::abs(axial_of_back) < least)
        return change;
    std::vector<std::size_t> moved;
    for (const std::size_t person : on_their_feet(scene, asked)) {
        const scene::Person& who = scene.people[person];
        const double behind_m = axial_m(view, nearer_eye_m(view, who)) - view.lens.focus_m;
        const double own_back_m = to_the_centimetre(who.own.back_m - behind_m / axial_of_back);
        if (std::abs(own_back_m - who.own.back_m) < m_from_mm(5))
            continue;
        change.values.push_back(scene::set_person_number(who.name, "back_m", own_back_m));
        moved.push_back(person);
    }
    if (!moved.empty())
        change.what = who_words(scene, moved) + " into the plane of focus";
    return change;
}

Change change_places(const scene::Scene& scene, std::size_t person, std::size_t other) {
    const scene::Person& a = scene.people[person];
    const scene::Person& b = scene.people[other];
    Change change{.what = a.name + " and " + b.name + " change places", .values = {}};
    take_steps_of(a, b, change);
    take_steps_of(b, a, change);
    if (a.row >= 0)
        change.values.push_back(scene::set_words(place_in_row(scene, person), b.name));
    if (b.row >= 0)
        change.values.push_back(scene::set_words(place_in_row(scene, other), a.name));
    return change;
}

Change space_row(int row, double spacing_m) {
    const double within = std::clamp(to_the_centimetre(spacing_m), scene::limits::spacing_m.least,
                                     scene::limits::spacing_m.greatest);
    return {.what = fmt::format("Spacing of row {}", row + 1),
            .values = {scene::set_number(fmt::format("row.{}.spacing_m", row), within)}};
}

Change raise_row(int row, double up_m) {
    const double within = std::clamp(to_the_centimetre(up_m), scene::limits::up_m.least,
                                     scene::limits::up_m.greatest);
    return {.what = fmt::format("Height of row {}", row + 1),
            .values = {scene::set_number(fmt::format("row.{}.up_m", row), within)}};
}

Change stagger_row(int row, bool staggered) {
    return {.what = fmt::format("Row {} {}", row + 1, staggered ? "behind gaps" : "behind heads"),
            .values = {fmt::format("row.{}.stagger={}", row, staggered)}};
}

double row_spacing_m(const scene::Scene& scene, int row) {
    const auto unmoved_m = [](const scene::Person& who) {
        return who.place.across_m - who.own.across_m;
    };
    const auto in_row = [&](const scene::Person& who) { return who.row == row; };
    const auto first = std::ranges::find_if(scene.people, in_row);
    const auto second = std::find_if(first + 1, scene.people.end(), in_row);
    return second == scene.people.end() ? 0 : unmoved_m(*second) - unmoved_m(*first);
}

}  // namespace backrow::rehearsal
