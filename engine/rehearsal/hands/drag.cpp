#include "rehearsal/hands/drag.h"

#include "rehearsal/hands/group_handling.h"
#include "rehearsal/hands/light_handling.h"
#include "rehearsal/hands/place_handling.h"
#include "rehearsal/hands/row_handling.h"
#include "rehearsal/hands/under_pointer.h"

#include "scene/camera_view.h"
#include "scene/index_of.h"
#include "scene/rows.h"
#include "scene/set_people.h"
#include "scene/settle.h"

#include "base/units.h"

#include <algorithm>
#include <cmath>

namespace backrow::rehearsal {
namespace {

plan::DrawingPoint from_to(const plan::DrawingPoint& from, const plan::DrawingPoint& to) {
    return {.x_m = to.x_m - from.x_m, .y_m = to.y_m - from.y_m};
}

plan::DrawingPoint beside(const plan::DrawingPoint& point, const plan::DrawingPoint& by) {
    return {.x_m = point.x_m + by.x_m, .y_m = point.y_m + by.y_m};
}

plan::DrawingPoint middle_of(const plan::Line& line) {
    return {.x_m = (line.from.x_m + line.to.x_m) / 2, .y_m = (line.from.y_m + line.to.y_m) / 2};
}

/// As the sun's: 0 towards the camera side, 90 to picture right.
double azimuth_deg(const plan::DrawingPoint& from, const plan::DrawingPoint& to) {
    return deg_from_rad(std::atan2(to.x_m - from.x_m, from.y_m - to.y_m));
}

std::optional<Grip> grip_at(const scene::Scene& scene, const plan::FromAbove& drawing,
                            const Pointer& pointer) {
    if (const auto person = person_at(drawing, pointer.at, pointer.reach_m))
        return PersonGrip{.person = scene.people[*person].name,
                          .beside = from_to(pointer.at, drawing.people[*person].place)};
    if (is_on_lens(drawing, pointer.at, pointer.reach_m))
        return LensGrip{.beside = from_to(pointer.at, drawing.lens)};
    if (is_on_sun(drawing, pointer.at, pointer.reach_m))
        return SunGrip{.beside_deg = scene.light.sun_azimuth_deg -
                                     azimuth_deg(drawing.sun->middle, pointer.at)};
    if (is_on_window(drawing, pointer.at, pointer.reach_m))
        return WindowGrip{.beside = from_to(pointer.at, middle_of(*drawing.window))};
    if (is_on_plane_of_focus(drawing, pointer.at, pointer.reach_m))
        return FocusGrip{};
    if (const auto number = model_at(drawing, pointer.at)) {
        const scene::FromMark& place = scene.models[*number].place;
        return ModelGrip{.number = *number,
                         .beside = from_to(pointer.at, {place.across_m, place.back_m})};
    }
    if (const auto number = backdrop_at(drawing, pointer.at, pointer.reach_m))
        return BackdropGrip{.number = *number,
                            .back_beside_m =
                                scene.setting.backdrops[*number].back_m - pointer.at.y_m};
    return std::nullopt;
}

/// For each thing that can be gripped, what dragging it does.
struct Dragging {
    const scene::Scene& scene;
    const Facts& facts;
    const Pointer& pointer;

    Change operator()(const PersonGrip& grip) const {
        const auto person = index_of(scene, grip.person);
        if (!person)
            return {};
        const plan::DrawingPoint to = beside(pointer.at, grip.beside);
        if (!grip.others.empty())
            return together(*person, grip.others, to);
        if (pointer.with_shift)
            return lead(scene, *person, to.x_m, to.y_m, false);
        const int row = nearest_row(*person, [&](int other) {
            return std::abs(scene::row_line(scene, other).back_m - to.y_m);
        });
        return led_along(*person, row, to);
    }
    Change operator()(const FaceGrip& grip) const {
        const auto person = index_of(scene, grip.person);
        if (!person)
            return {};
        const scene::Person& who = scene.people[*person];
        const scene::Seen eye = project(facts.view, nearer_eye_m(facts.view, who));
        const double m_per_px =
            eye.axial_m / (facts.view.image_distance_mm() * facts.view.px_per_mm());
        const plan::DrawingPoint px =
            from_to({eye.at_px.x, eye.at_px.y}, beside(pointer.at, grip.beside_px));
        const double across_m = who.place.across_m + px.x_m * m_per_px;
        const double back_m = who.place.back_m - px.y_m * m_per_px;
        if (!grip.others.empty())
            return together(*person, grip.others, {across_m, back_m});
        if (pointer.with_shift)
            return lead(scene, *person, across_m, back_m, false);
        const double wanted_y_px = eye.at_px.y + px.y_m;
        const int row = nearest_row(
            *person, [&](int other) { return std::abs(eyes_y_px(other, *person) - wanted_y_px); });
        return led_along(*person, row, {across_m, who.place.back_m});
    }
    Change operator()(const LensGrip& grip) const {
        const plan::DrawingPoint to = beside(pointer.at, grip.beside);
        return carry_camera(scene, -to.y_m, to.x_m);
    }
    Change operator()(const FocusGrip&) const {
        return focus_at(place_seen(scene, facts.view, facts.above.level_m, pointer.at).axial_m);
    }
    Change operator()(const ProfileGrip& grip) const {
        const auto person = index_of(scene, grip.person);
        return person ? lead(scene, *person, scene.people[*person].place.across_m,
                             pointer.at.x_m + grip.back_beside_m, false)
                      : Change{};
    }
    Change operator()(const LeanGrip& grip) const {
        const auto person = index_of(scene, grip.person);
        return person ? lean(scene, *person, pointer.at.x_m + grip.lean_beside_m) : Change{};
    }

    Change operator()(const SunGrip& grip) const {
        if (!facts.above.sun)
            return {};
        return turn_sun(scene, azimuth_deg(facts.above.sun->middle, pointer.at) + grip.beside_deg);
    }
    Change operator()(const WindowGrip& grip) const {
        const plan::DrawingPoint to = beside(pointer.at, grip.beside);
        scene::WindowPlace window = scene.light.window;
        window.azimuth_deg = azimuth_deg({}, to);
        window.distance_m = std::hypot(to.x_m, to.y_m);
        return move_window(scene, window);
    }
    Change operator()(const ModelGrip& grip) const {
        if (grip.number >= scene.models.size())
            return {};
        const plan::DrawingPoint to = beside(pointer.at, grip.beside);
        return place_model(
            scene, grip.number,
            {.across_m = to.x_m, .up_m = scene.models[grip.number].place.up_m, .back_m = to.y_m});
    }
    Change operator()(const BackdropGrip& grip) const {
        return grip.number < scene.setting.backdrops.size()
                   ? move_backdrop(scene, grip.number, pointer.at.y_m + grip.back_beside_m)
                   : Change{};
    }

private:
    /// All by one step, sideways, and with Shift anywhere.
    [[nodiscard]] Change together(std::size_t person, const std::vector<std::string>& names,
                                  const plan::DrawingPoint& to) const {
        std::vector<std::size_t> people{person};
        for (const std::string& name : names)
            if (const auto other = index_of(scene, name))
                people.push_back(*other);
        const scene::FromMark& from = scene.people[person].place;
        return step(scene, people, to.x_m - from.across_m,
                    pointer.with_shift ? to.y_m - from.back_m : 0);
    }

    /// The row that lies nearest by this measure: the person's own where others are no nearer, and
    /// where the person stands alone only one within reach.
    template <typename Distance>
    [[nodiscard]] int nearest_row(std::size_t person, Distance distance) const {
        int nearest = scene.people[on_whose_feet(scene.people, person)].row;
        if (nearest < 0)
            return nearest;
        for (int row = 0; row < scene::row_count(scene); ++row)
            if (distance(row) < distance(nearest))
                nearest = row;
        return nearest;
    }

    /// The mean height in the picture at which the others of a row have their eyes; where nobody
    /// else stands in it, the person's own.
    [[nodiscard]] double eyes_y_px(int row, std::size_t person) const {
        double sum = 0;
        int others = 0;
        for (const std::size_t other : scene::people_in_row(scene, row))
            if (other != person || scene::people_in_row(scene, row).size() == 1) {
                sum += project(facts.view, nearer_eye_m(facts.view, scene.people[other])).at_px.y;
                ++others;
            }
        return sum / others;
    }

    [[nodiscard]] Change led_along(std::size_t person, int row,
                                   const plan::DrawingPoint& to) const {
        const std::size_t feet = on_whose_feet(scene.people, person);
        const scene::Person& who = scene.people[feet];
        if (row < 0)
            return lead(scene, feet, to.x_m, to.y_m, true);
        const std::size_t position = position_in_row(scene, row, feet, to.x_m);
        const bool stays =
            row == who.row && position == position_in_row(scene, row, feet, who.place.across_m);
        return stays ? lead(scene, feet, to.x_m, to.y_m, true)
                     : stand_in_row(scene, feet, row, position);
    }
};

/// Whoever is pressed, among those who are chosen already.
struct Pressed {
    std::vector<std::size_t> chosen;
    std::vector<std::string> others{};  ///< Names of those who are gripped with them.
    bool is_gripped = true;
};

Pressed pressed_on(const scene::Scene& scene, std::size_t person, bool with_ctrl,
                   std::vector<std::size_t> chosen) {
    const bool was_chosen = std::erase(chosen, person) != 0;
    if (with_ctrl && !was_chosen)
        chosen.push_back(person);
    if (with_ctrl)
        return {.chosen = std::move(chosen), .is_gripped = false};
    Pressed pressed;
    if (was_chosen)
        pressed.chosen = std::move(chosen);
    for (const std::size_t other : pressed.chosen)
        pressed.others.push_back(scene.people[other].name);
    pressed.chosen.push_back(person);
    return pressed;
}

}  // namespace

Drawing drawing_of(const Grip& grip) {
    if (std::holds_alternative<FaceGrip>(grip))
        return Drawing::picture;
    return std::holds_alternative<ProfileGrip>(grip) || std::holds_alternative<LeanGrip>(grip)
               ? Drawing::from_the_side
               : Drawing::from_above;
}

Press press_from_above(const scene::Scene& scene, const Facts& facts, const Pointer& pointer,
                       const std::vector<std::size_t>& chosen) {
    std::optional<Grip> grip = grip_at(scene, facts.above, pointer);
    if (!grip)
        return {};
    const auto person = person_at(facts.above, pointer.at, pointer.reach_m);
    if (!person)
        return {.chosen = chosen, .grip = grip};
    Pressed pressed = pressed_on(scene, *person, pointer.with_ctrl, chosen);
    std::get<PersonGrip>(*grip).others = std::move(pressed.others);
    return {.chosen = std::move(pressed.chosen), .grip = pressed.is_gripped ? grip : std::nullopt};
}

Press press_from_the_side(const scene::Scene& scene, const Facts& facts, const Pointer& pointer) {
    const auto head = head_at(facts.side, pointer.at, pointer.reach_m);
    if (!head)
        return {};
    const scene::Person& who = scene.people[*head];
    if (pointer.with_shift)
        return {.chosen = {*head},
                .grip = LeanGrip{.person = who.name,
                                 .lean_beside_m = who.pose.lean_m - pointer.at.x_m}};
    return {.chosen = {*head},
            .grip = ProfileGrip{.person = who.name,
                                .back_beside_m = who.place.back_m - pointer.at.x_m}};
}

Press press_on_face(const scene::Scene& scene, const Facts& facts, const Pointer& pointer,
                    std::size_t person, const std::vector<std::size_t>& chosen) {
    const scene::Person& who = scene.people[person];
    const scene::Seen eye = project(facts.view, nearer_eye_m(facts.view, who));
    Pressed pressed = pressed_on(scene, person, pointer.with_ctrl, chosen);
    Press press{.chosen = std::move(pressed.chosen)};
    if (pressed.is_gripped)
        press.grip = FaceGrip{.person = who.name,
                              .beside_px = from_to(pointer.at, {eye.at_px.x, eye.at_px.y}),
                              .others = std::move(pressed.others)};
    return press;
}

Change drag_to(const scene::Scene& scene, const Facts& facts, const Grip& grip,
               const Pointer& pointer) {
    return std::visit(Dragging{scene, facts, pointer}, grip);
}

}  // namespace backrow::rehearsal
