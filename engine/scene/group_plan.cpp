#include "scene/group_plan.h"

#include "scene/person_words.h"
#include "scene/row_place.h"
#include "scene/settle.h"

#include <algorithm>
#include <utility>

namespace backrow::scene {

namespace {

Person person_of(const Guest& guest) {
    Person person{.name = guest.name,
                  .place = {},
                  .measures = measures_of(guest.stature_m, guest.age_years, guest.sex),
                  .pose = {},
                  .company = guest.company};
    person.styling.family = guest.family;
    return person;
}

/// Children find those who carry them; all names are of the plan.
void lift(const std::vector<Guest>& children, std::vector<Person>& people) {
    for (const Guest& guest : children) {
        const auto carrier = std::ranges::find(people, guest.carried_by, &Person::name);
        Person child = person_of(guest);
        child.carrier = static_cast<int>(carrier - people.begin());
        child.pose.posture = figures::Posture::on_hip;
        people.push_back(std::move(child));
    }
    if (!children.empty())
        settle(people);
}

}  // namespace

figures::Posture posture_of(const Guest& guest, const PlannedRow& row) {
    return guest.posture.value_or(row.posture);
}

Scene scene_of(const GroupPlan& plan) {
    Scene scene;
    scene.title = plan.title;
    scene.camera = plan.camera;
    scene.focus = FocusBalanced{};
    scene.viewing = scene::viewing_for(plan.use);
    scene.setting = {.ground = plan.ground, .backdrops = {plan.backdrop}};
    for (std::size_t r = 0; r < plan.rows.size(); ++r) {
        const PlannedRow& row = plan.rows[r];
        for (std::size_t i = 0; i < row.people.size(); ++i) {
            Person person = person_of(row.people[i]);
            person.place = {.across_m =
                                across_in_row_m(i, row.people.size(), plan.spacing_m, row.stagger),
                            .up_m = row.up_m,
                            .back_m = row.back_m};
            person.pose.posture = posture_of(row.people[i], row);
            person.pose.lean_m = row.lean_m;
            person.row = static_cast<int>(r);
            scene.people.push_back(std::move(person));
        }
    }
    lift(plan.carried, scene.people);
    return scene;
}

}  // namespace backrow::scene
