#include "arranging/arrange.h"

#include "arranging/arrange_camera.h"
#include "arranging/arrange_lens.h"
#include "arranging/arrange_people.h"
#include "arranging/arrange_rows.h"
#include "arranging/arrange_words.h"
#include "scene/limits.h"
#include "scene/person_words.h"

#include "figures/posture/carry.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

namespace backrow::arranging {
namespace {

// Common practice, no source, all of these.
constexpr double few_people_lens_mm = 85;
constexpr double group_lens_mm = 50;
constexpr double lean_in_m = 0.05;            // of the last row, without effort
constexpr double over_frame_shape = 4.0 / 3;  // a group may be this much wider than the frame
constexpr double rise_of_row_m = 0.22;        // what a further row adds to the outline: a head
constexpr double behind_group_m = 5;          // from the last row to the backdrop
constexpr double loose_row_m = 1;

void complain(std::vector<Problem>& problems, const char* option, std::string what,
              std::string mend) {
    problems.push_back({{.file = option}, std::move(what), std::move(mend)});
}

void check_people(const GroupWishes& wishes, std::vector<Problem>& problems) {
    const int people = people_of(wishes);
    if (people < 1 || people > scene::limits::most_people) {
        complain(problems, "--people", fmt::format("{} people make no group", people),
                 fmt::format("write 1 to {}", scene::limits::most_people));
        return;
    }
    const auto all = static_cast<std::size_t>(people);
    const std::size_t known = known_beside_names(wishes).size();
    const std::size_t named = wishes.names.size() + known;
    const std::size_t children = wishes.child_ages.size();
    if (named > all)
        complain(problems, "--names", fmt::format("{} names for {} people", named, all),
                 "raise --people, or give fewer names");
    else if (children > all - known)
        complain(problems, "--children", fmt::format("{} children among {} people", children, all),
                 "children count among --people");
    else if (wishes.statures_m.size() > all - known - children)
        complain(problems, "--heights",
                 fmt::format("{} heights for {} grown people", wishes.statures_m.size(),
                             all - known - children),
                 "give one for each at most; children's heights follow from their ages");
    if (wishes.rows && (*wishes.rows < 1 || *wishes.rows > people))
        complain(problems, "--rows",
                 fmt::format("{} people cannot stand in {} rows", all, *wishes.rows),
                 fmt::format("write 1 to {}", all));
}

void check_values(const GroupWishes& wishes, std::vector<Problem>& problems) {
    const auto check = [&](const char* option, double value, double least, double greatest) {
        if (!(value >= least && value <= greatest))
            complain(problems, option, fmt::format("{:g} is out of range", value),
                     fmt::format("write {:g} to {:g}", least, greatest));
    };
    const auto check_key = [&](const char* option, const std::optional<double>& value,
                               scene::Range<double> range) {
        if (value)
            check(option, *value, range.least, range.greatest);
    };
    for (const double stature_m : wishes.statures_m)
        check("--heights", stature_m, scene::limits::stature_m.least,
              scene::limits::stature_m.greatest);
    for (const double age : wishes.child_ages)
        check("--children", age, scene::limits::age_years.least, oldest_child_years);
    check_key("--spacing", wishes.spacing_m, scene::limits::spacing_m);
    check_key("--focal-length", wishes.focal_length_mm, scene::limits::focal_length_mm);
    check_key("--f-number", wishes.f_number, scene::limits::f_number);
    constexpr double highest_step_m = 2;
    if (wishes.step_m)
        check("--step", *wishes.step_m, 0, highest_step_m);
    constexpr double least_fill = 0.3;
    check("--fill", wishes.fill, least_fill, 1);
}

void check_names(const std::vector<std::string>& names, std::vector<Problem>& problems) {
    std::set<std::string> seen;
    for (const std::string& name : names) {
        if (auto fault = scene::fault_of_name(name))
            complain(problems, "--names", std::move(fault->what), std::move(fault->mend));
        else if (!seen.insert(name).second)
            complain(problems, "--names", fmt::format("`{}` stands there twice", name),
                     "give namesakes different names");
    }
}

/// What is known of people, as far as the lists that it came from have not been checked.
void check_known(const GroupWishes& wishes, std::vector<Problem>& problems) {
    for (const scene::Guest& guest : known_beside_names(wishes))
        if (auto fault = scene::fault_of_name(guest.name))
            complain(problems, "--names", std::move(fault->what), std::move(fault->mend));
    for (const scene::Guest& guest : wishes.known) {
        if (guest.age_years && !(*guest.age_years >= scene::limits::age_years.least &&
                                 *guest.age_years <= scene::limits::age_years.greatest))
            complain(problems, "--ages",
                     fmt::format("{:g} of `{}` is out of range", *guest.age_years, guest.name),
                     fmt::format("write {:g} to {:g} years", scene::limits::age_years.least,
                                 scene::limits::age_years.greatest));
        if (std::ranges::find(guest.company.with, guest.name) != guest.company.with.end())
            complain(problems, "--couples",
                     fmt::format("`{}` cannot stay beside themselves", guest.name),
                     "name two people");
    }
}

bool may_be_carried(double child_m, double carrier_m) {
    return child_m <= figures::tallest_carried_m &&
           child_m <= figures::tallest_carried_share * carrier_m;
}

/// Who carries whom, once everybody's stature is known.
void check_carried(const GroupWishes& wishes, std::vector<Problem>& problems) {
    const std::vector<scene::Guest> guests = guests_of(wishes);
    std::set<std::string> carriers;
    for (const scene::Guest& child : guests) {
        if (child.carried_by.empty())
            continue;
        const auto carrier = std::ranges::find(guests, child.carried_by, &scene::Guest::name);
        const bool free_to = carrier->carried_by.empty() && !carrier->posture;
        if (!free_to || carrier->name == child.name)
            complain(
                problems, "--carried",
                fmt::format("`{}` does not stand and cannot carry `{}`", carrier->name, child.name),
                "name somebody who stands");
        else if (!carriers.insert(carrier->name).second)
            complain(problems, "--carried",
                     fmt::format("`{}` carries somebody already", carrier->name),
                     "nobody carries two children here");
        else if (child.posture)
            complain(problems, "--carried",
                     fmt::format("`{}` is carried and has no posture of their own", child.name),
                     "leave out one of the two");
        else if (!may_be_carried(stature_m_of(child), stature_m_of(*carrier)))
            complain(problems, "--carried",
                     fmt::format("`{}`, {:.2f} m tall, is too tall to be carried by `{}`, {:.2f} m",
                                 child.name, stature_m_of(child), carrier->name,
                                 stature_m_of(*carrier)),
                     fmt::format("up to {:.2f} m and three quarters of the carrier are carried "
                                 "here; give the child's age with --ages",
                                 figures::tallest_carried_m));
    }
}

double shape_of(const scene::Camera& camera, std::optional<scene::Orientation> orientation) {
    const double shape = camera.sensor_mm[0] / camera.sensor_mm[1];
    return orientation == scene::Orientation::portrait ? 1 / shape : shape;
}

/// The fewest rows whose outline is not much wider than the frame.
int rows_for(const scene::GroupPlan& in_one_row, const GroupWishes& wishes) {
    const double height_m = size_of(scene_of(in_one_row)).height_m;
    const double widest = over_frame_shape * shape_of(in_one_row.camera, wishes.orientation);
    const int people = static_cast<int>(in_one_row.rows.front().people.size());
    int rows = 1;
    while (rows < people) {
        const int longest = (people + rows - 1) / rows;
        if (longest * in_one_row.spacing_m <= widest * (height_m + (rows - 1) * rise_of_row_m))
            break;
        ++rows;
    }
    return rows;
}

void set_up_rows(std::vector<std::vector<scene::Guest>> people, figures::Posture front,
                 const GroupWishes& wishes, scene::GroupPlan& plan) {
    plan.rows.clear();
    for (std::vector<scene::Guest>& row : people)
        plan.rows.push_back({.people = std::move(row)});
    plan.rows.front().posture = front;
    for (std::size_t r = 1; r < plan.rows.size(); ++r)
        plan.rows[r].lean_m = -std::round(100 * lean_in_m * static_cast<double>(r) /
                                          static_cast<double>(plan.rows.size() - 1)) /
                              100;
    set_stagger(plan.rows, wishes.stagger.value_or(true));
    const double least_m = least_spacing_m(plan);
    plan.spacing_m = wishes.spacing_m.value_or(std::max(least_m, scene::limits::spacing_m.least));
    close_up(plan.rows, plan.spacing_m);
}

/// Everybody into rows; those who are carried with those who carry them.
void give_places(const GroupWishes& wishes, scene::GroupPlan& plan) {
    std::vector<scene::Guest> guests = guests_of(wishes);
    const auto carried =
        std::stable_partition(guests.begin(), guests.end(),
                              [](const scene::Guest& guest) { return guest.carried_by.empty(); });
    plan.carried.assign(carried, guests.end());
    guests.erase(carried, guests.end());
    const int people = static_cast<int>(guests.size());
    const bool staggered = wishes.stagger.value_or(true);

    set_up_rows({guests}, wishes.front.value_or(figures::Posture::standing), wishes, plan);
    const int fewest = has_sitters_and_others(guests, plan.carried) ? 2 : 1;
    const int rows = wishes.rows ? std::min(*wishes.rows, people)
                                 : std::max(rows_for(plan, wishes), std::min(fewest, people));
    const bool sits = rows >= static_cast<int>(rows_that_sit) || (fewest > 1 && rows > 1);
    const figures::Posture front =
        wishes.front.value_or(sits ? figures::Posture::seated : figures::Posture::standing);
    set_up_rows(has_company(guests, plan.carried)
                    ? rows_by_company(std::move(guests), plan.carried,
                                      {.rows = rows,
                                       .exactly = wishes.rows.has_value(),
                                       .staggered = staggered,
                                       .front = front})
                    : rows_by_stature(std::move(guests), row_counts(people, rows, staggered)),
                front, wishes, plan);
}

void raise_rows(const std::vector<double>& ups_m, scene::GroupPlan& plan) {
    for (std::size_t r = 0; r < plan.rows.size(); ++r)
        plan.rows[r].up_m = ups_m[r];
}

std::vector<double> ups_of(const scene::GroupPlan& plan) {
    std::vector<double> ups_m;
    for (const scene::PlannedRow& row : plan.rows)
        ups_m.push_back(row.up_m);
    return ups_m;
}

// A higher row lifts the camera, and a higher camera looks over heads with less of a rise, so the
// two are settled in turn. Where they would chase each other for ever by a centimetre, rows may
// after a while only rise, which ends.
bool settle(scene::GroupPlan& plan, double fill, bool rows_may_rise) {
    constexpr int patience = 12;
    for (int round = 0;; ++round) {
        scene::Scene scene = scene_of(plan);
        if (!frame_group(scene, fill))
            return false;
        plan.camera = scene.camera;
        if (!rows_may_rise)
            return true;
        std::vector<double> needed_m = needed_ups_m(scene, plan.rows.size());
        const std::vector<double> now_m = ups_of(plan);
        if (round >= patience)
            for (std::size_t r = 0; r < needed_m.size(); ++r)
                needed_m[r] = std::max(needed_m[r], now_m[r]);
        if (needed_m == now_m)
            return true;
        raise_rows(needed_m, plan);
    }
}

scene::Scene as_loose_rows(scene::GroupPlan plan) {
    for (std::size_t r = 0; r < plan.rows.size(); ++r) {
        plan.rows[r].back_m = loose_row_m * static_cast<double>(r);
        plan.rows[r].lean_m = 0;
    }
    return scene_of(plan);
}

std::string title_for(const scene::GroupPlan& plan, int people) {
    if (people == 1)
        return "Portrait";
    return plan.rows.size() == 1 ? fmt::format("Group of {} in a row", people)
                                 : fmt::format("Group of {} in {} rows", people, plan.rows.size());
}

}  // namespace

Checked<Arrangement> arrange(const GroupWishes& wishes) {
    std::vector<Problem> problems;
    check_people(wishes, problems);
    check_values(wishes, problems);
    check_names(wishes.names, problems);
    check_known(wishes, problems);
    if (problems.empty())
        check_carried(wishes, problems);
    if (!problems.empty())
        return tl::unexpected(std::move(problems));

    Arrangement made;
    scene::GroupPlan& plan = made.plan;
    plan.use = wishes.use;
    plan.camera.focal_length_mm = wishes.focal_length_mm.value_or(
        people_of(wishes) <= few_people ? few_people_lens_mm : group_lens_mm);
    give_places(wishes, plan);
    if (wishes.step_m)
        for (std::size_t r = 0; r < plan.rows.size(); ++r)
            plan.rows[r].up_m = *wishes.step_m * static_cast<double>(r);
    const GroupSize size = size_of(scene_of(plan));
    plan.camera.orientation =
        wishes.orientation.value_or(size.height_m > size.width_m ? scene::Orientation::portrait
                                                                 : scene::Orientation::landscape);
    plan.title = title_for(plan, people_of(wishes));
    if (!settle(plan, wishes.fill, !wishes.step_m)) {
        complain(problems, "--focal-length",
                 fmt::format("with {:g} mm the group does not fit into the frame from {:g} m",
                             plan.camera.focal_length_mm, scene::limits::farthest_m),
                 "choose a shorter lens, more rows or a larger --fill");
        return tl::unexpected(std::move(problems));
    }
    plan.backdrop = {.kind = setting::BackdropKind::hedge,
                     .back_m = std::ceil(plan.rows.back().back_m + behind_group_m)};
    plan.camera.f_number = wishes.f_number.value_or(f_number_for(scene_of(plan)));

    const scene::Scene scene = scene_of(plan);
    made.eye_depth_m = eye_depth_m(scene);
    made.eye_depth_of_loose_rows_m = eye_depth_m(as_loose_rows(plan));
    const ArrangedFrom from{.wishes = wishes,
                            .plan = plan,
                            .scene = scene,
                            .least_spacing_m = least_spacing_m(plan),
                            .needed_ups_m = needed_ups_m(scene, plan.rows.size()),
                            .eye_depth_m = made.eye_depth_m,
                            .eye_depth_of_loose_rows_m = made.eye_depth_of_loose_rows_m};
    made.choices = choices_of(from);
    made.cautions = cautions_of(from);
    return made;
}

}  // namespace backrow::arranging
