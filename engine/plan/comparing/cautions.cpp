#include "plan/comparing/cautions.h"

#include <algorithm>
#include <cstddef>
#include <initializer_list>
#include <set>

namespace backrow::plan {

std::vector<Caution> cautions(const scene::Scene& now, const scene::Scene& then) {
    std::set<Caution> found;
    if (then.camera.lens_to_mark_m > now.camera.lens_to_mark_m)
        found.insert(Caution::photographer_steps_back);
    for (std::size_t i = 0; i < now.people.size(); ++i) {
        const double back_m = then.people[i].place.back_m - now.people[i].place.back_m;
        if (back_m == 0)
            continue;
        if (now.people[i].carrier >= 0) {
            found.insert(Caution::moves_with_a_child);
            continue;
        }
        if (back_m > 0)
            found.insert(Caution::somebody_steps_back);
        if (now.people[i].place.up_m > 0)
            found.insert(Caution::moves_on_something);
    }
    return {found.begin(), found.end()};
}

std::vector<Caution> shoot_cautions(const scene::Scene& scene, const SunChecks& checks) {
    const auto is_carried = [](const scene::Person& person) { return person.carrier >= 0; };
    const auto is_raised = [&](const scene::Person& person) {
        return !is_carried(person) && person.place.up_m > 0;
    };
    const auto stands_before = [&](std::initializer_list<setting::BackdropKind> kinds) {
        return std::ranges::any_of(scene.setting.backdrops, [&](const setting::Backdrop& backdrop) {
            return std::ranges::find(kinds, backdrop.kind) != kinds.end();
        });
    };
    std::vector<Caution> found;
    const auto add = [&](bool is_called_for, Caution caution) {
        if (is_called_for)
            found.push_back(caution);
    };
    add(std::ranges::any_of(scene.people, is_raised), Caution::people_raised);
    add(scene.camera.height_m > highest_held_m, Caution::camera_raised);
    add(stands_before({setting::BackdropKind::water, setting::BackdropKind::beach}),
        Caution::water_near);
    add(checks.is_in_frame, Caution::sun_in_picture);
    add(stands_before({setting::BackdropKind::street}), Caution::traffic_near);
    add(std::ranges::any_of(scene.people, is_carried), Caution::child_carried);
    return found;
}

std::string to_words(Caution caution) {
    switch (caution) {
    case Caution::photographer_steps_back:
        return "The camera goes back: look behind you before every step, and mind steps, edges, "
               "water and traffic; the rules of the place decide.";
    case Caution::somebody_steps_back:
        return "Somebody is asked to step back: they look behind them first, and nobody steps back "
               "towards an edge, water or traffic; the rules of the place decide.";
    case Caution::moves_on_something:
        return "Somebody who stands on a riser or step is asked to move: mind its edge; the rules "
               "of the place decide.";
    case Caution::moves_with_a_child:
        return "Somebody who carries a child is asked to move: set it down first, and lift it "
               "again only where they stand firmly; the rules of the place decide.";
    case Caution::people_raised:
        return "People stand raised: risers, steps and benches are rated for them and locked, the "
               "unsteady stand low, nobody backs off the last; whoever is licensed for the place "
               "decides.";
    case Caution::camera_raised:
        return "The camera stands high: a firm platform with a rail or somebody who holds the "
               "ladder, and nothing that can fall; the rules of the place decide.";
    case Caution::water_near:
        return "Water is near: nobody steps back towards it or stands at an unguarded edge, and "
               "somebody watches the children; lifeguards and local rules decide.";
    case Caution::sun_in_picture:
        return "Never look at the sun through an optical finder: it burns eyes. Do not leave the "
               "lens "
               "pointed at it.";
    case Caution::traffic_near:
        return "Traffic: a closed street or none, and somebody who watches it and does nothing "
               "else; police and local rules decide.";
    case Caution::child_carried:
        return "A child is carried: lift it last, where its carrier stands firmly, and set it down "
               "before anybody moves; its own people decide.";
    }
    return {};
}

}  // namespace backrow::plan
