#include "rehearsal/hands/row_handling.h"

#include "rehearsal/hands/hand_words.h"

#include "scene/rows.h"
#include "scene/set_people.h"
#include "scene/set_words.h"
#include "scene/settle.h"

#include <fmt/format.h>

#include <algorithm>

namespace backrow::rehearsal {
namespace {

/// A new row stands as far behind the last as that behind the one before it, and as much higher.
void place_new_row(Change& change, const scene::Scene& scene, int row) {
    constexpr double usual_depth_m = 0.5;
    if (row == 0)
        return;
    const scene::RowLine last = scene::row_line(scene, row - 1);
    const scene::RowLine before = row > 1 ? scene::row_line(scene, row - 2)
                                          : scene::RowLine{last.back_m - usual_depth_m, last.up_m};
    const scene::RowLine line{last.back_m +
                                  std::max(last.back_m - before.back_m, usual_depth_m / 2),
                              last.up_m + std::max(last.up_m - before.up_m, 0.0)};
    change.values.push_back(
        scene::set_number(fmt::format("row.{}.back_m", row), to_the_centimetre(line.back_m)));
    if (line.up_m != 0)
        change.values.push_back(
            scene::set_number(fmt::format("row.{}.up_m", row), to_the_centimetre(line.up_m)));
}

}  // namespace

std::size_t position_in_row(const scene::Scene& scene, int row, std::size_t person,
                            double across_m) {
    const std::vector<std::size_t> people = scene::people_in_row(scene, row);
    return static_cast<std::size_t>(std::ranges::count_if(people, [&](std::size_t other) {
        return other != person && scene.people[other].place.across_m < across_m;
    }));
}

Change stand_in_row(const scene::Scene& scene, std::size_t asked, int row, std::size_t position) {
    const std::size_t person = on_whose_feet(scene.people, asked);
    Change change{.what = "Stand " + scene.people[person].name + " in a row",
                  .values = set_moved(scene, person, row, position)};
    if (row == scene::row_count(scene))
        place_new_row(change, scene, row);
    return change;
}

Change leave_row(const scene::Scene& scene, std::size_t asked) {
    const std::size_t person = on_whose_feet(scene.people, asked);
    const scene::Person& who = scene.people[person];
    Change change{.what = who.name + " out of the row", .values = {}};
    if (who.row < 0)
        return change;
    change.values = set_moved_out(scene, person, to_the_centimetre(who.place.across_m),
                                  to_the_centimetre(who.place.back_m));
    if (const double up_m = to_the_centimetre(who.place.up_m); up_m != 0)
        change.values.push_back(scene::set_person_number(who.name, "up_m", up_m));
    return change;
}

}  // namespace backrow::rehearsal
