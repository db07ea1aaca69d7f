#include "arranging/arrange_rows.h"

#include "arranging/centimetres.h"

#include "scene/camera_view.h"
#include "scene/footing.h"
#include "scene/row_place.h"
#include "scene/settle.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace backrow::arranging {
namespace {

// Between bodies that stand close but do not touch. Common practice, no source.
constexpr double between_neighbours_m = 0.02;
constexpr double behind_bodies_m = 0.05;
// A riser begins a little before its shoes; a bench ends where it ends.
constexpr double behind_benches_m = 0.10;
// Hair stands above the solid of a head.
constexpr double hair_m = 0.03;

struct Span {
    double low = std::numeric_limits<double>::infinity();
    double high = -low;

    void take(double at, double radius) {
        low = std::min(low, at - radius);
        high = std::max(high, at + radius);
    }
};

/// How far a body reaches to both sides of its own place, and a child that it carries.
Span reach_across(const std::vector<scene::Person>& people, std::size_t who) {
    Span span;
    for (std::size_t i = 0; i < people.size(); ++i)
        if (on_whose_feet(people, i) == who)
            for (const figures::Capsule& solid : solids(people[i]))
                for (const glm::dvec3& end : {solid.from_m, solid.to_m})
                    span.take(end.x - people[who].place.across_m, solid.radius_m);
    return span;
}

/// How far a row and its seats reach before and behind its line.
struct Depth {
    Span bodies;
    double seats_end_m = -std::numeric_limits<double>::infinity();
};

Depth depth_of(const scene::PlannedRow& row, double spacing_m) {
    scene::GroupPlan alone;
    alone.spacing_m = spacing_m;
    alone.rows = {row};
    alone.rows[0].back_m = alone.rows[0].up_m = 0;
    const std::vector<scene::Person> people = scene_of(alone).people;
    Depth depth;
    for (const scene::Person& person : people)
        for (const figures::Capsule& solid : solids(person))
            for (const glm::dvec3& end : {solid.from_m, solid.to_m})
                depth.bodies.take(-end.z, solid.radius_m);
    for (const setting::Block& seat : blocks_under(people))
        depth.seats_end_m = std::max(depth.seats_end_m, seat.far_back_m);
    return depth;
}

/// Something seen from the lens: between two directions across, so far away, so high.
struct Outline {
    double left = 0;
    double right = 0;
    double away_m = 0;
    double top_m = 0;
};

struct Onlooker {
    Outline face;  ///< top_m: of the chin.
    std::vector<Outline> parts;
    Span whole;  ///< Of all parts' directions.
    std::size_t row = 0;
    double up_m = 0;  ///< That its heights include.
};

Outline outline(const glm::dvec3& low, const glm::dvec3& high, double radius_m,
                const glm::dvec3& lens_m) {
    const double near_m = lens_m.z - std::max(low.z, high.z);
    Outline seen{.away_m = near_m, .top_m = std::max(low.y, high.y) + radius_m};
    const auto across = [&](double x) { return (x - lens_m.x) / near_m; };
    seen.left = std::min(across(low.x - radius_m), across(high.x - radius_m));
    seen.right = std::max(across(low.x + radius_m), across(high.x + radius_m));
    return seen;
}

std::vector<Onlooker> onlookers(const scene::Scene& scene, const glm::dvec3& lens_m) {
    std::vector<Onlooker> all;
    for (std::size_t i = 0; i < scene.people.size(); ++i) {
        const scene::Person& person = scene.people[i];
        const scene::Person& on_feet = scene.people[on_whose_feet(scene.people, i)];
        const figures::ReferencePoints points = reference_points(person);
        Onlooker one{.face = outline(points.chin_m, points.chin_m,
                                     person.measures.head_breadth_m / 2, lens_m),
                     .parts = {},
                     .whole = {},
                     .row = static_cast<std::size_t>(on_feet.row),
                     .up_m = person.place.up_m};
        one.face.top_m = points.chin_m.y;
        const std::vector<figures::Capsule> bodies = solids(person);
        for (const figures::Capsule& solid : bodies) {
            one.parts.push_back(outline(solid.from_m, solid.to_m, solid.radius_m, lens_m));
            one.whole.take(one.parts.back().left, 0);
            one.whole.take(one.parts.back().right, 0);
        }
        // The last solid is the head.
        one.parts.back().top_m = std::max(one.parts.back().top_m, points.crown_m.y) + hair_m;
        all.push_back(std::move(one));
    }
    return all;
}

/// How high a chin must be for the line of sight to it to clear the part; heights over the ground.
double clear_of(const Outline& part, double lift_m, const Outline& face, double lens_height_m) {
    return lens_height_m + (part.top_m + lift_m - lens_height_m) * face.away_m / part.away_m;
}

bool overlap(double a_left, double a_right, double b_left, double b_right) {
    return a_left < b_right && b_left < a_right;
}

}  // namespace

double least_spacing_m(const scene::GroupPlan& plan) {
    double least = 0;
    const std::vector<scene::Person> people = scene_of(plan).people;
    for (std::size_t i = 1; i < people.size(); ++i)
        if (people[i - 1].row == people[i].row)
            least = std::max(least, reach_across(people, i - 1).high - reach_across(people, i).low);
    return up_to_centimetre(least + between_neighbours_m);
}

void close_up(std::vector<scene::PlannedRow>& rows, double spacing_m) {
    Depth front;
    for (std::size_t r = 0; r < rows.size(); ++r) {
        const Depth depth = depth_of(rows[r], spacing_m);
        if (r == 0)
            rows[r].back_m = 0;
        else
            rows[r].back_m = up_to_centimetre(rows[r - 1].back_m - depth.bodies.low +
                                              std::max(front.bodies.high + behind_bodies_m,
                                                       front.seats_end_m + behind_benches_m));
        front = depth;
    }
}

void set_stagger(std::vector<scene::PlannedRow>& rows, bool staggered) {
    bool between = false;  // whether the row's people stand half a spacing off the front row's
    for (std::size_t r = 0; r < rows.size(); ++r) {
        const bool other_parity = rows[r].people.size() % 2 != rows[0].people.size() % 2;
        rows[r].stagger = other_parity != between;
        between = staggered && !between;
    }
}

std::vector<double> needed_ups_m(const scene::Scene& scene, std::size_t rows) {
    const glm::dvec3 lens_m = lens_position_m(scene.camera);
    const std::vector<Onlooker> people = onlookers(scene, lens_m);
    std::vector<double> ups_m(rows, 0.0);
    for (std::size_t r = 1; r < rows; ++r) {
        ups_m[r] = ups_m[r - 1];
        for (const Onlooker& behind : people) {
            if (behind.row != r)
                continue;
            const double chin_m = behind.face.top_m - behind.up_m;
            for (const Onlooker& before : people) {
                if (before.row >= r || !overlap(before.whole.low, before.whole.high,
                                                behind.face.left, behind.face.right))
                    continue;
                const double lift_m = ups_m[before.row] - before.up_m;
                for (const Outline& part : before.parts)
                    if (overlap(part.left, part.right, behind.face.left, behind.face.right))
                        ups_m[r] = std::max(
                            ups_m[r], up_to_centimetre(
                                          clear_of(part, lift_m, behind.face, lens_m.y) - chin_m));
            }
        }
    }
    return ups_m;
}

}  // namespace backrow::arranging
