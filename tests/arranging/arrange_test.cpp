#include "arranging/arrange.h"

#include "../scene_file/scene_folder.h"

#include "arranging/arrange_camera.h"
#include "arranging/wish_lists.h"
#include "scene/camera_view.h"
#include "scene/settle.h"
#include "scene_file/editing/write_scene.h"

#include <catch2/catch.hpp>

#include <glm/geometric.hpp>

#include <algorithm>
#include <functional>
#include <set>

using Catch::Matchers::WithinAbs;

namespace backrow::arranging {

using namespace scene;
namespace {

Arrangement arranged(const GroupWishes& wishes) {
    auto arrangement = arrange(wishes);
    REQUIRE(arrangement);
    return std::move(*arrangement);
}

Scene as_read(const Arrangement& arrangement) {
    const scene_file::SceneFolder folder;
    auto scene = folder.read(scene_file::scene_toml(arrangement));
    if (!scene)
        for (const Problem& problem : scene.error())
            UNSCOPED_INFO(to_line(problem));
    REQUIRE(scene);
    return std::move(*scene);
}

/// Calls with groups of all sizes up to sixty, each in one to five rows.
void for_every_group(const std::function<void(const GroupWishes&)>& look_at) {
    for (int people = 1; people <= 60; people += people < 12 ? 1 : 7)
        for (int rows = 1; rows <= std::min(people, 5); ++rows) {
            CAPTURE(people, rows);
            look_at({.people = people, .rows = rows});
            if (people > 3)
                look_at({.people = people, .rows = rows, .child_ages = {6, 9, 12}});
        }
}

// The distance of two segments is convex in the places along both, so thirds narrow it down.
double least(const std::function<double(double)>& convex) {
    double low = 0;
    double high = 1;
    for (int i = 0; i < 40; ++i) {
        const double a = low + (high - low) / 3;
        const double b = high - (high - low) / 3;
        (convex(a) < convex(b) ? high : low) = convex(a) < convex(b) ? b : a;
    }
    return convex((low + high) / 2);
}

bool touch(const figures::Capsule& a, const figures::Capsule& b) {
    const double reach_m = a.radius_m + b.radius_m;
    // Cheap first: apart along an axis.
    for (int axis = 0; axis < 3; ++axis) {
        const auto [a_low, a_high] = std::minmax(a.from_m[axis], a.to_m[axis]);
        const auto [b_low, b_high] = std::minmax(b.from_m[axis], b.to_m[axis]);
        if (a_high + reach_m < b_low || b_high + reach_m < a_low)
            return false;
    }
    return least([&](double s) {
               const glm::dvec3 on_a = a.from_m + s * (a.to_m - a.from_m);
               return least([&](double t) {
                   return glm::distance(on_a, b.from_m + t * (b.to_m - b.from_m));
               });
           }) < reach_m;
}

bool touch(const std::vector<figures::Capsule>& a, const std::vector<figures::Capsule>& b) {
    return std::ranges::any_of(a, [&](const figures::Capsule& mine) {
        return std::ranges::any_of(
            b, [&](const figures::Capsule& other) { return touch(mine, other); });
    });
}

std::vector<Problem> problems_of(const GroupWishes& wishes) {
    const auto arrangement = arrange(wishes);
    REQUIRE_FALSE(arrangement);
    return arrangement.error();
}

}  // namespace

TEST_CASE("a scene that was written reads back as the group that was planned",
          "[arranging][property]") {
    for_every_group([](const GroupWishes& wishes) {
        const Arrangement arrangement = arranged(wishes);
        const Scene planned = scene_of(arrangement.plan);
        const Scene read = as_read(arrangement);
        CHECK(read.title == planned.title);
        CHECK(read.camera.focal_length_mm == planned.camera.focal_length_mm);
        CHECK(read.camera.f_number == planned.camera.f_number);
        CHECK(read.camera.lens_to_mark_m == planned.camera.lens_to_mark_m);
        CHECK(read.camera.height_m == planned.camera.height_m);
        CHECK(read.camera.across_m == planned.camera.across_m);
        CHECK(read.camera.orientation == planned.camera.orientation);
        CHECK(std::holds_alternative<FocusBalanced>(read.focus));
        REQUIRE(read.people.size() == planned.people.size());
        std::set<std::string> names;
        for (std::size_t i = 0; i < read.people.size(); ++i) {
            const Person& there = planned.people[i];
            const Person& here = read.people[i];
            names.insert(here.name);
            CHECK(here.name == there.name);
            CHECK(here.place.across_m == there.place.across_m);
            CHECK(here.place.back_m == there.place.back_m);
            CHECK(here.place.up_m == there.place.up_m);
            CHECK(here.measures.stature_m == there.measures.stature_m);
            CHECK(here.pose.posture == there.pose.posture);
            CHECK(here.pose.lean_m == there.pose.lean_m);
            CHECK(here.row == there.row);
        }
        CHECK(names.size() == read.people.size());
    });
}

TEST_CASE("nobody stands in anybody else", "[arranging][property]") {
    for (const figures::Posture front :
         {figures::Posture::standing, figures::Posture::seated, figures::Posture::kneeling})
        for (const int people : {2, 9, 24, 40})
            for (int rows = 1; rows <= std::min(people, 5); ++rows) {
                CAPTURE(people, rows, static_cast<int>(front));
                const Arrangement arrangement =
                    arranged({.people = people, .rows = rows, .front = front});
                std::vector<std::vector<figures::Capsule>> bodies;
                for (const Person& person : scene_of(arrangement.plan).people)
                    bodies.push_back(solids(person));
                for (std::size_t i = 0; i < bodies.size(); ++i)
                    for (std::size_t j = 0; j < i; ++j)
                        CHECK_FALSE(touch(bodies[i], bodies[j]));
            }
}

// How photographers line people up: common practice, no source.
TEST_CASE("the tall stand behind the small, the taller of a row in its middle",
          "[arranging][practice]") {
    for_every_group([](const GroupWishes& wishes) {
        const Scene scene = scene_of(arranged(wishes).plan);
        double tallest_so_far_m = 0;
        std::size_t first = 0;
        for (int row = 0; row < *wishes.rows; ++row) {
            std::vector<double> statures_m;
            for (; first < scene.people.size() && scene.people[first].row == row; ++first)
                statures_m.push_back(scene.people[first].measures.stature_m);
            REQUIRE(!statures_m.empty());
            CHECK(std::ranges::min(statures_m) >= tallest_so_far_m);
            tallest_so_far_m = std::ranges::max(statures_m);
            const auto tallest = std::ranges::max_element(statures_m);
            CHECK(std::is_sorted(statures_m.begin(), tallest));
            CHECK(std::is_sorted(tallest, statures_m.end(), std::greater{}));
        }
        CHECK(first == scene.people.size());
    });
}

TEST_CASE("rows as close as bodies allow lie flatter than rows a metre apart",
          "[arranging][property]") {
    for (const int rows : {2, 3, 5}) {
        const Arrangement arrangement = arranged({.people = 30, .rows = rows});
        CHECK(arrangement.eye_depth_m < arrangement.eye_depth_of_loose_rows_m);
        // A metre from row to row, but for how differently people hold their heads: the eyes of a
        // small and a tall one, both upright, differ by less than a decimetre.
        CHECK_THAT(arrangement.eye_depth_of_loose_rows_m, WithinAbs(rows - 1, 0.1));
        // Nobody is deeper than two thirds of a metre from front to back, seated on a bench or not.
        CHECK(arrangement.eye_depth_m < 0.67 * (rows - 1));
    }
}

TEST_CASE("what is known about people is kept", "[arranging][property]") {
    const Arrangement arrangement = arranged({.people = 6,
                                              .statures_m = {1.91, 1.5},
                                              .child_ages = {7},
                                              .names = {"Åsa \"Tall\" Ek", "Bo\\", "Ye", "Ola"}});
    const Scene scene = as_read(arrangement);
    const auto person = [&](const std::string& name) {
        const auto found = std::ranges::find(scene.people, name, &Person::name);
        REQUIRE(found != scene.people.end());
        return *found;
    };
    CHECK(person("Åsa \"Tall\" Ek").measures.stature_m == 1.91);
    CHECK(person("Bo\\").measures.stature_m == 1.5);
    person("Ye");
    person("Ola");
    // A child's stature is nobody else's: the middle one at seven is below everybody grown.
    CHECK(std::ranges::min(scene.people, {}, [](const Person& p) {
              return p.measures.stature_m;
          }).measures.stature_m < 1.4);
}

// Source: [ANSUR2], 5th, 50th and 95th percentile of stature.
// Tolerance: a centimetre, to which statures are written, and half a centimetre for the step from
// one of a hundred people to the next at the outer percentiles.
TEST_CASE("two hundred people whom nobody measured are as tall as those of the survey (ANSUR II)",
          "[arranging][published]") {
    std::vector<double> women_m;
    std::vector<double> men_m;
    for (const PlannedRow& row : arranged({.people = 200}).plan.rows)
        for (const Guest& guest : row.people)
            (guest.sex == figures::Sex::female ? women_m : men_m).push_back(*guest.stature_m);
    REQUIRE(women_m.size() == 100);
    REQUIRE(men_m.size() == 100);
    std::ranges::sort(women_m);
    std::ranges::sort(men_m);
    CHECK_THAT(women_m[5], WithinAbs(1.525, 0.015));
    CHECK_THAT(women_m[50], WithinAbs(1.626, 0.015));
    CHECK_THAT(women_m[95], WithinAbs(1.740, 0.015));
    CHECK_THAT(men_m[5], WithinAbs(1.648, 0.015));
    CHECK_THAT(men_m[50], WithinAbs(1.755, 0.015));
    CHECK_THAT(men_m[95], WithinAbs(1.870, 0.015));
}

TEST_CASE("nobody climbs higher than the line of sight asks for", "[arranging][property]") {
    // Bodies are solids: rows of the same height must rise once heads stand behind heads.
    const GroupWishes in_file{.people = 12,
                              .rows = 3,
                              .statures_m = std::vector<double>(12, 1.7),
                              .front = figures::Posture::standing,
                              .stagger = false};
    const Arrangement raised = arranged(in_file);
    CHECK(raised.plan.rows[1].up_m > 0);
    CHECK(raised.plan.rows[2].up_m > raised.plan.rows[1].up_m);
    CHECK(std::ranges::any_of(raised.cautions, [](const std::string& caution) {
        return caution.find("Local rules") != std::string::npos;
    }));
    GroupWishes flat = in_file;
    flat.step_m = 0;
    const Arrangement hidden = arranged(flat);
    CHECK(hidden.plan.rows[2].up_m == 0);
    CHECK(std::ranges::any_of(hidden.cautions, [](const std::string& caution) {
        return caution.find("partly hidden") != std::string::npos;
    }));
}

TEST_CASE("the same wishes give the same bytes", "[arranging][property]") {
    const GroupWishes wishes{.people = 37, .child_ages = {4, 8}};
    CHECK(scene_file::scene_toml(arranged(wishes)) == scene_file::scene_toml(arranged(wishes)));
}

TEST_CASE("two thousand people still find a place", "[arranging][property]") {
    const Scene scene = as_read(arranged({.people = 2000}));
    CHECK(scene.people.size() == 2000);
}

TEST_CASE("wishes that cannot be are named by their option", "[arranging][property]") {
    const auto first_file = [](const GroupWishes& wishes) {
        return problems_of(wishes)[0].where.file;
    };
    CHECK(first_file({.people = 0}) == "--people");
    CHECK(first_file({.people = 2, .child_ages = {6, 7, 8}}) == "--children");
    CHECK(first_file({.people = 2, .child_ages = {40}}) == "--children");
    CHECK(first_file({.people = 2, .statures_m = {17}}) == "--heights");
    CHECK(first_file({.people = 2, .statures_m = {1.7, 1.8}, .child_ages = {6}}) == "--heights");
    CHECK(first_file({.people = 2, .names = {"A", "A"}}) == "--names");
    CHECK(first_file({.people = 2, .names = {""}}) == "--names");
    CHECK(first_file({.people = 2, .names = {"A", "B", "C"}}) == "--names");
    CHECK(first_file({.people = 2, .rows = 3}) == "--rows");
    CHECK(first_file({.people = 2, .fill = 2}) == "--fill");
    CHECK(first_file({.people = 900, .rows = 1, .focal_length_mm = 200}) == "--focal-length");
    CHECK(problems_of({.people = 2, .rows = 3, .fill = 0}).size() == 2);
}

namespace {

/// Two families of three generations and one who came alone; the youngest is carried.
GroupWishes three_generations() {
    const auto known = known_from({.families = "Anna,Ben,Cleo,Max,Mia,Tom;Dora,Emil,Finn,Gia,Hugo",
                                   .couples = "Anna+Ben,Cleo+Max,Dora+Emil,Finn+Gia",
                                   .ages = "Anna=71,Ben=73,Dora=69,Emil=70,Mia=2,Tom=6,Hugo=5",
                                   .seated = "",
                                   .kneeling = "Jo",
                                   .carried = "Mia=Cleo",
                                   .celebrated = "Dora"});
    REQUIRE(known);
    return {.names = {"Ida"}, .known = *known};
}

const Person& named(const Scene& scene, const std::string& name) {
    const auto found = std::ranges::find(scene.people, name, &Person::name);
    REQUIRE(found != scene.people.end());
    return *found;
}

}  // namespace

// Common practice, no source.
TEST_CASE("grandparents sit in the middle, parents stand behind, children beside the seats",
          "[arranging][practice]") {
    const Scene scene = scene_of(arranged(three_generations()).plan);
    CHECK(scene.people.size() == 13);
    for (const char* name : {"Anna", "Ben", "Dora", "Emil"}) {
        CHECK(named(scene, name).row == 0);
        CHECK(named(scene, name).pose.posture == figures::Posture::seated);
        for (const char* child : {"Tom", "Hugo"})
            CHECK(std::abs(named(scene, name).place.across_m) <=
                  std::abs(named(scene, child).place.across_m) + 0.01);
    }
    for (const char* name : {"Tom", "Hugo"})
        CHECK(named(scene, name).pose.posture == figures::Posture::standing);
    CHECK(named(scene, "Jo").pose.posture == figures::Posture::kneeling);
    for (const char* name : {"Cleo", "Max", "Finn", "Gia"}) {
        CHECK(named(scene, name).row > 0);
        CHECK(named(scene, name).pose.posture == figures::Posture::standing);
    }
    const Person& mia = named(scene, "Mia");
    CHECK(scene.people[static_cast<std::size_t>(mia.carrier)].name == "Cleo");
}

TEST_CASE("what is known of families is in the file, and nobody is in anybody's way",
          "[arranging][property]") {
    const Arrangement arrangement = arranged(three_generations());
    const Scene read = as_read(arrangement);
    const Scene planned = scene_of(arrangement.plan);
    REQUIRE(read.people.size() == planned.people.size());
    for (std::size_t i = 0; i < read.people.size(); ++i) {
        CAPTURE(read.people[i].name);
        CHECK(read.people[i].name == planned.people[i].name);
        CHECK(read.people[i].company == planned.people[i].company);
        CHECK(read.people[i].styling.family == planned.people[i].styling.family);
        CHECK(read.people[i].place == planned.people[i].place);
        CHECK(read.people[i].pose.posture == planned.people[i].pose.posture);
        CHECK(read.people[i].carrier == planned.people[i].carrier);
        CHECK(read.people[i].measures == planned.people[i].measures);
    }
    CHECK(named(read, "Dora").company.celebrated);
    for (std::size_t i = 0; i < read.people.size(); ++i)
        for (std::size_t j = 0; j < i; ++j)
            if (on_whose_feet(read.people, i) != on_whose_feet(read.people, j)) {
                CAPTURE(read.people[i].name, read.people[j].name);
                CHECK_FALSE(
                    touch(solids(hands_off(read.people[i])), solids(hands_off(read.people[j]))));
            }
    CHECK(std::ranges::any_of(arrangement.cautions, [](const std::string& caution) {
        return caution.find("carry a child") != std::string::npos;
    }));
}

TEST_CASE("who can carry whom is told before anything is arranged", "[arranging][property]") {
    const auto line = [](const WishLists& lists) {
        const auto known = known_from(lists);
        REQUIRE(known);
        return to_line(problems_of({.known = *known})[0]);
    };
    CHECK(line({.ages = "Mia=2,Anna=40", .seated = "Anna", .carried = "Mia=Anna"}) ==
          "--carried: `Anna` does not stand and cannot carry `Mia`; name somebody who stands");
    CHECK(line({.ages = "Mia=2,Tom=3", .carried = "Mia=Anna,Tom=Anna"}) ==
          "--carried: `Anna` carries somebody already; nobody carries two children here");
    CHECK(line({.carried = "Mia=Anna"}).starts_with("--carried: `Mia`, 1."));
    CHECK(line({.ages = "Mia=2", .carried = "Mia=Mia"}).starts_with("--carried: `Mia` does not"));
    CHECK(line({.ages = "Mia=200"}) ==
          "--ages: 200 of `Mia` is out of range; write 2 to 110 years");
    CHECK(line({.couples = "Ana+Ana"}) ==
          "--couples: `Ana` cannot stay beside themselves; name two people");
}

}  // namespace backrow::arranging
