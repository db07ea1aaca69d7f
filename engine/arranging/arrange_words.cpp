#include "arranging/arrange_words.h"

#include "arranging/arrange_camera.h"
#include "arranging/arrange_people.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <set>

namespace backrow::arranging {
namespace {

constexpr double a_millimetre_m = 0.001;

std::string metres(const ArrangedFrom& from, double m) {
    return length_words(m, LengthScale::metres, from.wishes.units);
}

template <class Number>
std::string over_rows(const scene::GroupPlan& plan, const char* join, Number of) {
    std::vector<std::string> parts;
    for (const scene::PlannedRow& row : plan.rows)
        parts.push_back(of(row));
    return fmt::format("{}", fmt::join(parts, join));
}

/// "0.00, 0.46 m", "0'0\", 1'6\"".
std::string metres_over_rows(const ArrangedFrom& from, double scene::PlannedRow::*what_m) {
    const Units units = from.wishes.units;
    return over_rows(from.plan, ", ",
                     [&](const scene::PlannedRow& row) {
                         return length_digits(row.*what_m, LengthScale::metres, units);
                     }) +
           (units == Units::metric ? " m" : "");
}

bool is_raised(const scene::GroupPlan& plan) {
    return std::ranges::any_of(plan.rows,
                               [](const scene::PlannedRow& row) { return row.up_m > 0; });
}

bool has_seats(const scene::GroupPlan& plan) {
    return std::ranges::any_of(plan.rows, [](const scene::PlannedRow& row) {
        return std::ranges::any_of(row.people, [&](const scene::Guest& guest) {
            return posture_of(guest, row) == figures::Posture::seated;
        });
    });
}

std::vector<scene::Guest> everybody(const scene::GroupPlan& plan) {
    std::vector<scene::Guest> all = plan.carried;
    for (const scene::PlannedRow& row : plan.rows)
        all.insert(all.end(), row.people.begin(), row.people.end());
    return all;
}

Choice people(const ArrangedFrom& from) {
    const std::vector<scene::Guest> all = everybody(from.plan);
    const auto is_child = [](const scene::Guest& guest) {
        return guest.age_years && *guest.age_years <= oldest_child_years;
    };
    const auto count = [&](auto is) { return std::ranges::count_if(all, is); };
    const auto children = count(is_child);
    const auto given = static_cast<std::ptrdiff_t>(from.wishes.statures_m.size()) +
                       std::ranges::count_if(from.wishes.known, [](const scene::Guest& guest) {
                           return guest.stature_m.has_value();
                       });
    const auto by_age = count([](const scene::Guest& guest) { return !guest.stature_m; });
    const auto drawn = std::ssize(all) - given - by_age;
    std::vector<std::string> why;
    if (given > 0)
        why.push_back(fmt::format("{} as tall as given", given));
    if (drawn > 0)
        why.push_back(fmt::format("{} as tall as a population is, half women, half men", drawn));
    if (by_age > 0)
        why.push_back(fmt::format("{} of the middle stature for the age", by_age));
    return {"people",
            children == 0 ? fmt::format("{}", all.size())
                          : fmt::format("{}, {} of them children", all.size(), children),
            fmt::format("{}", fmt::join(why, "; "))};
}

Choice rows(const ArrangedFrom& from) {
    const std::string counts = over_rows(from.plan, " + ", [](const scene::PlannedRow& row) {
        return std::to_string(row.people.size());
    });
    return {"rows", counts,
            fmt::format("{}; small in front, tall behind, {}",
                        from.wishes.rows ? "as many as asked for"
                                         : "the fewest that fill the shape of the frame",
                        has_company(everybody(from.plan), from.plan.carried)
                            ? "as far as those who belong together allow"
                            : "the taller of a row in its middle")};
}

Choice front(const ArrangedFrom& from) {
    std::string why = "nobody stands behind who must look over them";
    const bool sits = from.plan.rows.front().posture == figures::Posture::seated;
    if (from.wishes.front)
        why = "as asked for";
    else if (sits && from.plan.rows.size() < rows_that_sit)
        why = "whoever has a seat has it there";
    else if (sits)
        why = "with three rows or more, a seated one spares the others a step";
    else if (from.plan.rows.size() > 1)
        why = "two rows need no bench";
    return {"front row",
            std::string{scene::word_for(scene::words::posture, from.plan.rows.front().posture)},
            std::move(why)};
}

Choice spacing(const ArrangedFrom& from) {
    return {"spacing", metres(from, from.plan.spacing_m),
            from.wishes.spacing_m ? "as asked for" : "the closest at which nobody touches"};
}

Choice stagger(const ArrangedFrom& from) {
    const bool on = from.wishes.stagger.value_or(true);
    return {"stagger", on ? "yes" : "no",
            on ? "heads look through the gaps of the row in front"
               : "heads stand behind heads, as asked for"};
}

Choice depth(const ArrangedFrom& from) {
    return {"rows back", metres_over_rows(from, &scene::PlannedRow::back_m),
            fmt::format("toe to heel, those behind lean in: eyes {} deep in all; upright and {} "
                        "from row to row it would be {}",
                        metres(from, from.eye_depth_m),
                        from.wishes.units == Units::metric ? "a metre" : metres(from, 1),
                        metres(from, from.eye_depth_of_loose_rows_m))};
}

Choice height(const ArrangedFrom& from) {
    return {"rows up", metres_over_rows(from, &scene::PlannedRow::up_m),
            from.wishes.step_m     ? "as asked for"
            : is_raised(from.plan) ? "just enough for every face to clear the heads and shoulders "
                                     "in front"
                                   : "bodies alone clear every face"};
}

std::string of_the_frame(const ArrangedFrom& from) {
    return fmt::format("as close as the whole group fits into {:.0f} % of the frame",
                       100 * from.wishes.fill);
}

void add_camera(const ArrangedFrom& from, std::vector<Choice>& choices) {
    const scene::Camera& camera = from.plan.camera;
    choices.push_back({"lens", fmt::format("{:g} mm", camera.focal_length_mm),
                       from.wishes.focal_length_mm ? "as asked for"
                       : people_of(from.wishes) <= few_people
                           ? "a few people: from farther off, with a longer lens"
                           : "a longer one would need more room, a shorter one stretches the "
                             "outer faces"});
    choices.push_back({"held",
                       std::string{scene::word_for(scene::words::orientation, camera.orientation)},
                       from.wishes.orientation ? "as asked for" : "as the group's outline is"});
    choices.push_back({"distance", metres(from, camera.lens_to_mark_m), of_the_frame(from)});
    choices.push_back({"lens height", metres(from, camera.height_m),
                       camera.height_m < highest_lens_m
                           ? "the mean height of the eyes"
                           : "as high as it is held without a ladder"});
    choices.push_back({"aperture", fmt::format("f/{:g}", camera.f_number),
                       from.wishes.f_number
                           ? "as asked for"
                           : fmt::format("the widest whole stop from f/2 on at "
                                         "which every eye is crisp ({})",
                                         scene::word_for(scene::words::use, from.plan.use))});
    choices.push_back({"focus", "balanced", "the nearest and the farthest eye equally sharp"});
}

}  // namespace

std::string some_of(const std::vector<std::string>& words, const char* between) {
    constexpr std::size_t most_told = 6;
    if (words.size() <= most_told)
        return fmt::format("{}", fmt::join(words, between));
    const std::vector<std::string> first(words.begin(), words.begin() + most_told);
    return fmt::format("{}{}{} more", fmt::join(first, between), between, words.size() - most_told);
}

std::vector<Choice> choices_of_company(const scene::GroupPlan& plan) {
    std::vector<Choice> choices;
    std::set<std::string> families;
    std::vector<std::string> couples;
    std::vector<std::string> celebrated;
    std::vector<std::string> carried;
    std::vector<std::string> seated;
    bool all_are_old = true;
    for (const scene::Guest& guest : everybody(plan)) {
        if (!guest.family.empty())
            families.insert(guest.family);
        if (!guest.company.with.empty())
            couples.push_back(
                fmt::format("{} and {}", guest.name, fmt::join(guest.company.with, ", ")));
        if (guest.company.celebrated)
            celebrated.push_back(guest.name);
        if (!guest.carried_by.empty())
            carried.push_back(fmt::format("{} by {}", guest.name, guest.carried_by));
    }
    for (const scene::Guest& guest : plan.rows.front().people)
        if (const bool is_old = guest.age_years && *guest.age_years >= eldest_from_years;
            (is_old || guest.posture == figures::Posture::seated) &&
            posture_of(guest, plan.rows.front()) == figures::Posture::seated) {
            seated.push_back(guest.name);
            all_are_old = all_are_old && is_old;
        }
    if (!celebrated.empty())
        choices.push_back(
            {"celebrated", some_of(celebrated, ", "), "in the middle of the front row"});
    if (!seated.empty())
        choices.push_back({"seats", some_of(seated, ", "),
                           all_are_old ? fmt::format("in the middle of the front row, from {:g} "
                                                     "years of age on",
                                                     eldest_from_years)
                                       : "in the middle of the front row: as asked for, and the "
                                         "eldest"});
    if (!families.empty())
        choices.push_back(
            {"families", fmt::format("{}", families.size()),
             "each side by side and one before the other, small children in front of their own"});
    if (!couples.empty())
        choices.push_back({"beside", some_of(couples, "; "), "side by side, as asked for"});
    if (!carried.empty())
        choices.push_back({"carried", some_of(carried, "; "), "as asked for"});
    return choices;
}

std::vector<std::string> cautions_of_places(const scene::GroupPlan& plan) {
    std::vector<std::string> cautions;
    if (is_raised(plan))
        cautions.emplace_back(
            "People stand on something: it must be firm, level, built for their weight and locked, "
            "with nobody near an open edge; children and the unsteady stay on the ground. Local "
            "rules decide.");
    if (!plan.carried.empty())
        cautions.emplace_back("Whether somebody can and should carry a child is for those who know "
                              "both to say.");
    if (has_seats(plan))
        cautions.emplace_back("Benches and chairs must stand firm and bear whoever sits on them.");
    return cautions;
}

std::vector<Choice> choices_of(const ArrangedFrom& from) {
    std::vector<Choice> choices{people(from), rows(from), front(from)};
    std::ranges::move(choices_of_company(from.plan), std::back_inserter(choices));
    if (std::ranges::any_of(from.plan.rows,
                            [](const scene::PlannedRow& row) { return row.people.size() > 1; }))
        choices.push_back(spacing(from));
    if (from.plan.rows.size() > 1)
        for (const auto& choice : {stagger(from), depth(from), height(from)})
            choices.push_back(choice);
    add_camera(from, choices);
    return choices;
}

std::vector<std::string> cautions_of(const ArrangedFrom& from) {
    std::vector<std::string> cautions;
    const scene::GroupPlan& plan = from.plan;
    for (std::size_t r = 0; r < plan.rows.size(); ++r)
        if (from.needed_ups_m[r] > plan.rows[r].up_m + a_millimetre_m)
            cautions.push_back(fmt::format(
                "Row {} stands {} up and would need {}: some of its faces are partly "
                "hidden.",
                r + 1, metres(from, plan.rows[r].up_m), metres(from, from.needed_ups_m[r])));
    if (plan.spacing_m < from.least_spacing_m - a_millimetre_m)
        cautions.push_back(
            fmt::format("At {} neighbours overlap; bodies that face the camera need {}. Turn "
                        "them, or allow more.",
                        metres(from, plan.spacing_m), metres(from, from.least_spacing_m)));
    std::ranges::move(cautions_of_places(plan), std::back_inserter(cautions));
    return cautions;
}

}  // namespace backrow::arranging
