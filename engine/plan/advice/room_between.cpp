#include "plan/advice/room_between.h"

#include "plan/advice/segments.h"
#include "plan/advice/standing_room.h"
#include "plan/advice/whole_cm.h"

#include "scene/camera_view.h"
#include "scene/settle.h"

#include "base/units.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

namespace backrow::plan {
namespace {

using Solids = std::vector<figures::Capsule>;

Segment axis_of(const figures::Capsule& solid) {
    return {solid.from_m, solid.to_m};
}

/// Whether two stretches with these ends, thickened by a reach, meet along one axis.
bool meet(double a, double b, double c, double d, double reach) {
    return std::min(a, b) - reach <= std::max(c, d) && std::min(c, d) - reach <= std::max(a, b);
}

struct PairOfSolids {
    Segment one;
    Segment other;
    double reach_m;

    /// Negative where they overlap, once the other has been shifted away from the camera.
    [[nodiscard]] double gap_m(double shift_m) const {
        const glm::dvec3 shift{0, 0, -shift_m};
        return std::sqrt(closest_square_m2(one, {other.from_m + shift, other.to_m + shift})) -
               reach_m;
    }
};

/// Those that could ever touch by moving to and fro.
std::vector<PairOfSolids> pairs_in_line(const Solids& one, const Solids& other) {
    std::vector<PairOfSolids> pairs;
    for (const figures::Capsule& a : one)
        for (const figures::Capsule& b : other) {
            const double reach_m = a.radius_m + b.radius_m;
            if (meet(a.from_m.x, a.to_m.x, b.from_m.x, b.to_m.x, reach_m) &&
                meet(a.from_m.y, a.to_m.y, b.from_m.y, b.to_m.y, reach_m))
                pairs.push_back({axis_of(a), axis_of(b), reach_m});
        }
    return pairs;
}

/// Whole centimetres that the other may be shifted towards the camera.
int room_forward_cm(const std::vector<PairOfSolids>& pairs, int most_cm) {
    int room_cm = most_cm;
    for (const PairOfSolids& pair : pairs) {
        constexpr double rounding_m = 1e-9;
        const double least_gap_m = std::min(0.0, pair.gap_m(0)) - rounding_m;
        for (int shift_cm = 1; shift_cm <= room_cm; ++shift_cm)
            if (pair.gap_m(-m_from_cm(shift_cm)) < least_gap_m)
                room_cm = shift_cm - 1;
    }
    return room_cm;
}

/// Whole centimetres that bodies leave to whoever stands behind by so much, or in front where that
/// is negative. A pair that holds each other closer than bodies keep apart may come closer still,
/// as far as side by side.
int room_of_bodies_cm(const std::vector<PairOfSolids>& pairs, double behind_m, int most_cm) {
    const int apart_cm = room_forward_cm(pairs, most_cm);
    const bool embraced =
        std::ranges::any_of(pairs, [](const PairOfSolids& pair) { return pair.gap_m(0) < 0; });
    return embraced ? std::max(apart_cm, std::clamp(whole_cm(behind_m), 0, most_cm)) : apart_cm;
}

struct Stretch {
    double from_m = std::numeric_limits<double>::infinity();
    double to_m = -std::numeric_limits<double>::infinity();

    void take(double m) {
        from_m = std::min(from_m, m);
        to_m = std::max(to_m, m);
    }
};

/// From the foremost to the hindmost of each row.
std::map<int, Stretch> depths_of_rows(const std::vector<scene::Person>& people) {
    std::map<int, Stretch> rows;
    for (const scene::Person& person : people)
        if (person.row >= 0)
            rows[person.row].take(person.place.back_m);
    return rows;
}

}  // namespace

std::vector<RoomBetween> rooms_between(const std::vector<scene::Person>& people, int most_cm) {
    const int most_apart_cm = 2 * most_cm;
    std::vector<Solids> bodies;
    std::vector<Stretch> widths(people.size());
    for (const scene::Person& person : people) {
        // Arms that lie round somebody move along with what they lie on.
        bodies.push_back(scene::solids(scene::hands_off(person)));
        for (const figures::Capsule& solid : bodies.back())
            for (const double x : {solid.from_m.x, solid.to_m.x}) {
                widths[bodies.size() - 1].take(x - solid.radius_m);
                widths[bodies.size() - 1].take(x + solid.radius_m);
            }
    }
    const auto rows = depths_of_rows(people);

    std::vector<RoomBetween> rooms;
    const auto add = [&](std::size_t front, std::size_t behind, int cm) {
        if (cm < most_apart_cm)
            rooms.push_back({.front = front, .behind = behind, .room_cm = cm});
    };
    for (std::size_t i = 0; i < people.size(); ++i)
        for (std::size_t j = 0; j < people.size(); ++j) {
            if (i == j)
                continue;
            if (on_whose_feet(people, i) == on_whose_feet(people, j)) {
                add(i, j, 0);  // In both orders: whoever is carried moves as the carrier does.
                continue;
            }
            const bool rows_in_order = people[i].row >= 0 && people[j].row >= 0 &&
                                       rows.at(people[i].row).to_m < rows.at(people[j].row).from_m;
            int cm = rows_in_order
                         ? std::min(most_apart_cm,
                                    whole_cm(people[j].place.back_m - people[i].place.back_m))
                         : most_apart_cm;
            if (meet(widths[i].from_m, widths[i].to_m, widths[j].from_m, widths[j].to_m, 0))
                cm = room_of_bodies_cm(pairs_in_line(bodies[i], bodies[j]),
                                       people[j].place.back_m - people[i].place.back_m, cm);
            add(i, j, cm);
        }
    return rooms;
}

std::vector<MoveRange> free_ranges(const scene::Scene& scene, int most_cm) {
    std::vector<MoveRange> ranges = standing_room(scene.people, most_cm);
    for (std::size_t i = 0; i < ranges.size(); ++i) {
        const scene::Person& person = scene.people[i];
        Stretch depth;
        for (const figures::Capsule& solid : scene::solids(person))
            for (const double z : {solid.from_m.z, solid.to_m.z})
                depth.take(-z + solid.radius_m);
        MoveRange& range = ranges[i];
        for (const setting::Backdrop& backdrop : scene.setting.backdrops)
            if (backdrop.back_m > person.place.back_m)
                range.to_cm = std::clamp(whole_cm(backdrop.back_m - depth.to_m), 0, range.to_cm);
    }
    return ranges;
}

}  // namespace backrow::plan
