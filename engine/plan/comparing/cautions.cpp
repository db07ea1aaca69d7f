#include "plan/comparing/cautions.h"

#include <cstddef>
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
    }
    return {};
}

}  // namespace backrow::plan
