#include "rehearsal/sitting/facts.h"

#include "plan/faces/worst_face.h"

namespace backrow::rehearsal {

Facts facts_of(const scene::Scene& scene, const plan::ModelOutlines& models) {
    Facts facts{.view = camera_view(scene)};
    facts.table = plan::face_table(scene, facts.view);
    facts.background = plan::background(scene, facts.view);
    facts.above = from_above(scene, facts.view, facts.table, models);
    facts.side = from_the_side(scene, facts.view, facts.table);
    facts.worst_first = plan::worst_first(facts.table.faces);
    return facts;
}

}  // namespace backrow::rehearsal
