#include "rehearsal/drag.h"

#include "rehearsal/group_handling.h"
#include "rehearsal/under_pointer.h"

namespace backrow::rehearsal {
namespace {

DrawingPoint from_to(const DrawingPoint& from, const DrawingPoint& to) {
    return {.x_m = to.x_m - from.x_m, .y_m = to.y_m - from.y_m};
}

DrawingPoint beside(const DrawingPoint& point, const DrawingPoint& by) {
    return {.x_m = point.x_m + by.x_m, .y_m = point.y_m + by.y_m};
}

std::optional<Grip> grip_at(const FromAbove& drawing, const Pointer& pointer) {
    if (const auto person = person_at(drawing, pointer.at, pointer.reach_m))
        return PersonGrip{.person = *person,
                          .beside = from_to(pointer.at, drawing.people[*person].place)};
    if (is_on_lens(drawing, pointer.at, pointer.reach_m))
        return LensGrip{.beside = from_to(pointer.at, drawing.lens)};
    if (is_on_plane_of_focus(drawing, pointer.at, pointer.reach_m))
        return FocusGrip{};
    return std::nullopt;
}

/// For each thing that can be gripped, what dragging it does.
struct Dragging {
    const scene::Scene& scene;
    const Facts& facts;
    const Pointer& pointer;

    Change operator()(const PersonGrip& grip) const {
        const DrawingPoint to = beside(pointer.at, grip.beside);
        return lead(scene, grip.person, to.x_m, to.y_m, !pointer.with_shift);
    }
    Change operator()(const LensGrip& grip) const {
        const DrawingPoint to = beside(pointer.at, grip.beside);
        return carry_camera(scene, -to.y_m, to.x_m);
    }
    Change operator()(const FocusGrip&) const {
        return focus_at(place_seen(scene, facts.view, facts.above.level_m, pointer.at).axial_m);
    }
    Change operator()(const ProfileGrip& grip) const {
        return lead(scene, grip.person, scene.people[grip.person].place.across_m,
                    pointer.at.x_m + grip.back_beside_m, false);
    }
    Change operator()(const LeanGrip& grip) const {
        return lean(scene, grip.person, pointer.at.x_m + grip.lean_beside_m);
    }
};

}  // namespace

Drawing drawing_of(const Grip& grip) {
    return std::holds_alternative<ProfileGrip>(grip) || std::holds_alternative<LeanGrip>(grip)
               ? Drawing::from_the_side
               : Drawing::from_above;
}

Press press_from_above(const scene::Scene& scene, const Facts& facts, const Pointer& pointer,
                       std::optional<std::size_t> chosen) {
    const std::optional<Grip> grip = grip_at(facts.above, pointer);
    if (!grip)
        return {};
    const auto* person = std::get_if<PersonGrip>(&*grip);
    if (person == nullptr)
        return {.chosen = chosen, .grip = grip};
    if (pointer.with_ctrl && chosen && *chosen != person->person)
        return {.chosen = chosen, .change = change_places(scene, *chosen, person->person)};
    return {.chosen = person->person, .grip = grip};
}

Press press_from_the_side(const scene::Scene& scene, const Facts& facts, const Pointer& pointer) {
    const auto head = head_at(facts.side, pointer.at, pointer.reach_m);
    if (!head)
        return {};
    const scene::Person& who = scene.people[*head];
    if (pointer.with_shift)
        return {.chosen = head,
                .grip =
                    LeanGrip{.person = *head, .lean_beside_m = who.pose.lean_m - pointer.at.x_m}};
    return {.chosen = head,
            .grip =
                ProfileGrip{.person = *head, .back_beside_m = who.place.back_m - pointer.at.x_m}};
}

Change drag_to(const scene::Scene& scene, const Facts& facts, const Grip& grip,
               const Pointer& pointer) {
    return std::visit(Dragging{scene, facts, pointer}, grip);
}

}  // namespace backrow::rehearsal
