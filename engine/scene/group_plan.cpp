#include "scene/group_plan.h"

#include "scene/person_words.h"
#include "scene/row_place.h"

namespace backrow::scene {

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
            const Guest& guest = row.people[i];
            scene.people.push_back(
                {.name = guest.name,
                 .place = {.across_m =
                               across_in_row_m(i, row.people.size(), plan.spacing_m, row.stagger),
                           .up_m = row.up_m,
                           .back_m = row.back_m},
                 .measures = measures_of(guest.stature_m, guest.age_years, guest.sex),
                 .pose = {.posture = row.posture, .lean_m = row.lean_m},
                 .row = static_cast<int>(r)});
        }
    }
    return scene;
}

}  // namespace backrow::scene
