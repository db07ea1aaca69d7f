#include "window/deeds.h"
#include "window/panels.h"

#include "scene/scene_keys.h"

#include <fmt/format.h>

#include <cmath>
#include <string>

namespace backrow::window {
namespace {

std::string posture_words(std::string_view word) {
    std::string words{word};
    for (char& letter : words)
        if (letter == '_')
            letter = ' ';
    return words;
}

std::string side(double metres, const char* minus, const char* plus) {
    const double cm = std::round(metres * 100);
    return cm == 0 ? std::string{"0 cm"}
                   : fmt::format("{:.0f} cm {}", std::abs(cm), cm < 0 ? minus : plus);
}

}  // namespace

void draw_person_panel(WindowState& state) {
    const auto chosen = state.sitting.chosen();
    if (!chosen) {
        ImGui::TextDisabled("Nobody is chosen. Click a face, or press Tab or W.");
        return;
    }
    const scene::Person& person = state.sitting.scene().people[*chosen];
    const plan::Face& face = state.sitting.facts().table.faces[*chosen];
    ImGui::PushFont(state.fonts.large);
    ImGui::TextUnformatted(person.name.c_str());
    ImGui::PopFont();
    ImGui::SameLine();
    const ImVec2 at = ImGui::GetCursorScreenPos();
    draw_grade(*ImGui::GetWindowDrawList(), {at.x, at.y + static_cast<float>(5 * state.scale)},
               face.grade, state.scale);
    ImGui::SetCursorScreenPos({at.x + static_cast<float>(30 * state.scale),
                               at.y + static_cast<float>(4 * state.scale)});
    ImGui::TextUnformatted(blur_words(face).c_str());
    ImGui::PushTextWrapPos(0);
    ImGui::TextUnformatted(
        fmt::format("{:.2f} m from the lens, {:.0f} cm {} the plane of focus; leeway {:.0f} cm "
                    "forward, {} back",
                    face.axial_m, std::abs(face.offset_mm) / 10,
                    face.offset_mm < 0 ? "before" : "behind", face.leeway.front_m * 100,
                    std::isinf(face.leeway.back_m) ? std::string{"any"}
                                                   : fmt::format("{:.0f} cm", face.leeway.back_m * 100))
            .c_str());
    ImGui::PopTextWrapPos();
    ImGui::Spacing();
    if (const int way = stepper(state, "Across", side(person.place.across_m, "left", "right"),
                                "left##a", "right##a", "From the mark, to picture left or right."))
        nudge_chosen(state, way * 0.01, 0);
    if (const int way = stepper(state, "Depth", side(person.place.back_m, "before", "behind"),
                                "forward##b", "back##b",
                                "A step of a few centimetres towards the plane of focus is the "
                                "cheapest sharpness there is: it costs no light."))
        nudge_chosen(state, 0, way * 0.01);
    if (const int way = stepper(state, "Lean", side(person.pose.lean_m, "forward", "back"),
                                "forward##l", "back##l",
                                "Who leans in or away leaves the row with the face, which is what "
                                "counts, and keeps the feet in line, which is what one sees."))
        lean_chosen(state, way * 0.01);
    if (const int way =
            stepper(state, "Turn", fmt::format("{:.0f}°", person.pose.turn_deg), "left##t",
                    "right##t", "Turned aside, one eye is nearer than the other: it is the nearer "
                                "one that must be sharp."))
        turn_chosen(state, way * 5);
    if (const int way = stepper(state, "Stature", fmt::format("{:.2f} m", person.measures.stature_m),
                                "shorter##s", "taller##s",
                                "Tall people at the back and in the middle, if you can choose."))
        grow_chosen(state, way * 0.01);
    ImGui::AlignTextToFramePadding();
    const float left = ImGui::GetCursorPosX();
    ImGui::TextUnformatted("Posture");
    ImGui::SameLine(left + static_cast<float>(76 * state.scale));
    ImGui::SetNextItemWidth(static_cast<float>(150 * state.scale));
    const std::string now{scene::keys::word_for(scene::keys::posture, person.pose.posture)};
    if (ImGui::BeginCombo("##posture", posture_words(now).c_str())) {
        for (const auto& [word, posture] : scene::keys::posture.words)
            if (ImGui::Selectable(posture_words(word).c_str(), posture == person.pose.posture))
                state.make(
                    rehearsal::take_posture(state.sitting.scene(), *chosen, posture));
        ImGui::EndCombo();
    }
    ImGui::SameLine();
    if (button(state, "Focus here", "On the nearer eye."))
        focus_on_chosen(state);
}

}  // namespace backrow::window
