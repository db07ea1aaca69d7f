#include "window/commands/commands.h"
#include "window/face_words.h"
#include "window/panels/panels.h"

#include "rehearsal/group_handling.h"
#include "scene/words.h"

#include <fmt/format.h>

#include <cmath>
#include <memory>
#include <string>
#include <vector>

namespace backrow::window {
namespace {

constexpr double row_step_m = 0.05;
constexpr double spacing_step_m = 0.02;

std::string posture_words(std::string_view word) {
    std::string words{word};
    for (char& letter : words)
        if (letter == '_')
            letter = ' ';
    return words;
}

std::string side(double metres, const char* minus, const char* plus, Units units) {
    const double cm = std::round(metres * 100);
    const LengthScale scale =
        std::abs(cm) < 100 ? LengthScale::whole_centimetres : LengthScale::metres;
    const std::string length = length_words(std::abs(metres), scale, units);
    return cm == 0 ? length : length + ' ' + (cm < 0 ? minus : plus);
}

void tell_place(const WindowState& state, const plan::Face& face) {
    ImGui::PushFont(state.style.fonts.small);
    ImGui::PushTextWrapPos(0);
    const Units units = state.style.lengths;
    const auto drift = [&](double m) {
        return std::isinf(m) ? std::string{"any"}
                             : length_words(m, LengthScale::whole_centimetres, units);
    };
    ImGui::TextUnformatted(fmt::format("{} from the lens, {}; margin {} forward, {} back",
                                       length_words(face.axial_m, LengthScale::metres, units),
                                       offset_words(face, units), drift(face.margin.front_m),
                                       drift(face.margin.back_m))
                               .c_str());
    ImGui::PopTextWrapPos();
    ImGui::PopFont();
}

/// What can be done to everybody who stands in a row.
void draw_row(WindowState& state, int row, double up_m) {
    std::vector<std::size_t> people;
    for (std::size_t i = 0; i < state.sitting.scene().people.size(); ++i)
        if (state.sitting.scene().people[i].row == row)
            people.push_back(i);
    ImGui::Spacing();
    ImGui::TextDisabled("The whole row");
    ImGui::PushButtonRepeat(true);
    if (button(state, "forward##row", "All of them by 5 cm towards the camera side."))
        state.make(rehearsal::step(state.sitting.scene(), people, 0, -row_step_m));
    ImGui::SameLine();
    if (button(state, "back##row", "All of them by 5 cm away from the camera side."))
        state.make(rehearsal::step(state.sitting.scene(), people, 0, row_step_m));
    ImGui::SameLine();
    if (button(state, "up##row",
               "Onto a step 5 cm higher. Risers must be built and rated for the people on them."))
        state.make(rehearsal::raise_row(row, up_m + row_step_m));
    ImGui::SameLine();
    if (button(state, "down##row", "Onto a step 5 cm lower."))
        state.make(rehearsal::raise_row(row, up_m - row_step_m));
    ImGui::PopButtonRepeat();
    if (button(state, "Line up on the focus",
               "Each of them until the nearer eye lies in the plane of focus: what straightens a "
               "row before the lens has to be stopped down."))
        state.make(rehearsal::line_up(state.sitting.scene(), state.sitting.facts().view, people));
    const double spacing_m = rehearsal::row_spacing_m(state.sitting.scene(), row);
    if (spacing_m <= 0)
        return;
    if (button(state, "closer##row",
               "Shoulders behind shoulders; at about half a metre they touch."))
        state.make(rehearsal::space_row(row, spacing_m - spacing_step_m));
    ImGui::SameLine();
    if (button(state, "wider##row", "More room between them."))
        state.make(rehearsal::space_row(row, spacing_m + spacing_step_m));
    ImGui::SameLine();
    ImGui::Text(
        "%s", length_words(spacing_m, LengthScale::whole_centimetres, state.style.lengths).c_str());
}

void tell_name(const WindowState& state, const plan::Face& face) {
    ImGui::PushFont(state.style.fonts.large);
    ImGui::TextUnformatted(face.name.c_str());
    ImGui::PopFont();
    ImGui::SameLine();
    const ImVec2 at = ImGui::GetCursorScreenPos();
    draw_verdict(*ImGui::GetWindowDrawList(), {at.x, at.y + state.style.units(5)}, verdict_of(face),
                 state.style.scale);
    ImGui::SetCursorScreenPos({at.x + state.style.units(30), at.y + state.style.units(4)});
    ImGui::TextUnformatted(blur_words(face).c_str());
}

void choose_posture(WindowState& state, std::size_t number, figures::Posture posture) {
    ImGui::AlignTextToFramePadding();
    const float left = ImGui::GetCursorPosX();
    ImGui::TextUnformatted("Posture");
    ImGui::SameLine(left + state.style.units(70));
    ImGui::SetNextItemWidth(state.style.units(168));
    const std::string now{scene::word_for(scene::words::posture, posture)};
    if (!ImGui::BeginCombo("##posture", posture_words(now).c_str()))
        return;
    for (const auto& [word, other] : scene::words::posture)
        if (ImGui::Selectable(posture_words(word).c_str(), other == posture))
            state.make(rehearsal::take_posture(state.sitting.scene(), number, other));
    ImGui::EndCombo();
}

void draw_steppers(WindowState& state, const scene::Person& person) {
    if (const int way = stepper(state, "Across",
                                side(person.place.across_m, "left", "right", state.style.lengths),
                                "left##a", "right##a", "From the mark, to picture left or right."))
        nudge_chosen(state, way * 0.01, 0);
    if (const int way = stepper(state, "Depth",
                                side(person.place.back_m, "before", "behind", state.style.lengths),
                                "forward##b", "back##b",
                                "A step of a few centimetres towards the plane of focus is the "
                                "cheapest sharpness there is: it costs no light."))
        nudge_chosen(state, 0, way * 0.01);
    if (const int way =
            stepper(state, "Lean", side(person.pose.lean_m, "forward", "back", state.style.lengths),
                    "forward##l", "back##l",
                    "Who leans in or away leaves the row with the face, which is what "
                    "counts, and keeps the feet in line, which is what one sees."))
        lean_chosen(state, way * 0.01);
    if (const int way = stepper(state, "Turn", fmt::format("{:.0f}°", person.pose.turn_deg),
                                "left##t", "right##t",
                                "Turned aside, one eye is nearer than the other: it is the nearer "
                                "one that must be sharp."))
        turn_chosen(state, way * 5);
    if (const int way = stepper(
            state, "Stature",
            length_words(person.measures.stature_m, LengthScale::metres, state.style.lengths),
            "shorter##s", "taller##s",
            "Tall people at the back and in the middle, if you can choose."))
        grow_chosen(state, way * 0.01);
}

void draw_buttons(WindowState& state, std::size_t number) {
    if (button(state, "Focus here", "On the nearer eye (F)."))
        focus_on_chosen(state);
    ImGui::SameLine();
    if (button(state, "Aim here", "The camera points at this face, and keeps to it."))
        state.make(rehearsal::aim_at(state.sitting.scene(), number));
    if (button(state, "Turn to the lens", "The whole body faces the camera."))
        state.make(rehearsal::turn_towards(state.sitting.scene(), number,
                                           state.sitting.facts().above.lens.x_m,
                                           state.sitting.facts().above.lens.y_m));
    if (button(state, "Onto the plane of focus",
               "So many steps forward or back that the nearer eye lies in it (T)."))
        line_up_chosen(state);
}

}  // namespace

void draw_person_panel(WindowState& state) {
    const auto chosen = state.sitting.chosen();
    if (!chosen) {
        ImGui::TextDisabled("Nobody is chosen. Click a face, or press Tab or W.");
        return;
    }
    // Kept meanwhile: whatever is pressed here makes another scene.
    const std::shared_ptr<const scene::Scene> scene = state.sitting.shared_scene();
    const scene::Person& person = scene->people[*chosen];
    const plan::Face face = state.sitting.facts().table.faces[*chosen];
    tell_name(state, face);
    ImGui::BeginGroup();
    draw_steppers(state, person);
    choose_posture(state, *chosen, person.pose.posture);
    ImGui::EndGroup();
    ImGui::SameLine(0, state.style.units(10));
    ImGui::BeginGroup();
    tell_place(state, face);
    draw_buttons(state, *chosen);
    if (person.row >= 0)
        draw_row(state, person.row, person.place.up_m - person.own.up_m);
    ImGui::EndGroup();
}

}  // namespace backrow::window
