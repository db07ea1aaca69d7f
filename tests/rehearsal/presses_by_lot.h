#pragma once

// A pointer that goes anywhere: where there is something to grip, and beside it.

#include "plan/drawings/from_above.h"
#include "rehearsal/hands/drag.h"
#include "rehearsal/sitting/sitting.h"

#include "scene/camera_view.h"

#include "../base/lot.h"

#include <cstddef>

namespace backrow::rehearsal {

inline plan::DrawingPoint near(Lot& lot, const plan::DrawingPoint& point, double within) {
    return {point.x_m + lot.between(-within, within), point.y_m + lot.between(-within, within)};
}

/// Somebody most often, else what lies about.
inline plan::DrawingPoint something_from_above(Lot& lot, const plan::FromAbove& above) {
    const std::size_t which = lot.below(10);
    if (which == 0)
        return above.lens;
    if (which == 1 && above.sun)
        return above.sun->at;
    if (which == 1 && above.window)
        return above.window->from;
    if (which == 2 && above.plane_of_focus)
        return above.plane_of_focus->from;
    if (which == 3 && !above.backdrops.empty())
        return lot.one_of(above.backdrops).line.from;
    if (which == 4)
        for (const auto& corners : above.models)
            if (corners && lot.in(0.5))
                return (*corners)[0];
    return lot.one_of(above.people).place;
}

/// The button pressed on anything, from above, in profile or in the picture.
///
/// with  its keys and its reach
inline Press press_by_lot(Lot& lot, const Sitting& sitting, const Pointer& with) {
    const Facts& facts = sitting.facts();
    Pointer pointer = with;
    switch (lot.below(3)) {
    case 0:
        pointer.at = near(lot, something_from_above(lot, facts.above), 0.1);
        return press_from_above(sitting.scene(), facts, pointer, sitting.all_chosen());
    case 1:
        pointer.at = near(lot, lot.one_of(facts.side.heads).nearer_eye, 0.1);
        return press_from_the_side(sitting.scene(), facts, pointer);
    default:
        const std::size_t person = lot.below(sitting.scene().people.size());
        const scene::Seen eye =
            project(facts.view, nearer_eye_m(facts.view, sitting.scene().people[person]));
        if (!(eye.axial_m > 0))
            return {.chosen = sitting.all_chosen()};
        pointer.at = near(lot, {eye.at_px.x, eye.at_px.y}, 50);
        return press_on_face(sitting.scene(), facts, pointer, person, sitting.all_chosen());
    }
}

}  // namespace backrow::rehearsal
