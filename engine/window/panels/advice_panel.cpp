#include "window/commands/commands.h"
#include "window/panels/panels.h"

#include "base/units.h"

#include <fmt/format.h>

#include <string>

namespace backrow::window {
namespace {

void beside(const char* words) {
    ImGui::SameLine();
    ImGui::TextUnformatted(words);
}

void draw_limits(WindowState& state) {
    AskedAdvice::Limits limits = state.advice.limits();
    const Units units = state.style.lengths;
    const std::string move =
        length_words(m_from_cm(limits.wanted.most_move_cm), LengthScale::whole_centimetres, units);
    const std::string back = length_words(limits.step_back_m, LengthScale::short_metres, units);
    bool changed = choose_grade(state, limits.wanted.grade, "advice");
    ImGui::SetNextItemWidth(state.style.units(110));
    changed |= ImGui::SliderInt("##move", &limits.wanted.most_move_cm, 0, 60, move.c_str());
    state.widget_rects.note_last("most move");
    beside("at most for anybody to move");
    teach(state, "People move forward and back only, by whole centimetres.");
    ImGui::SetNextItemWidth(state.style.units(110));
    changed |= ImGui::SliderFloat("##back", &limits.step_back_m, 0, 4, back.c_str());
    state.widget_rects.note_last("step back");
    beside("that you can step back");
    teach(state, "Look behind you before you step back.");
    if (changed)
        state.advice.set_limits(limits);
}

/// One answer, with what it costs.
void draw_answer(WindowState& state, const rehearsal::ThingToTry& thing, std::size_t number) {
    ImGui::PushID(static_cast<int>(number));
    if (thing.is_now) {
        ImGui::AlignTextToFramePadding();
        ImGui::TextColored(ImGui::ColorConvertU32ToFloat4(state.style.theme.accent), " now ");
    } else if (ImGui::Button("Try")) {
        state.make(thing.change);
    }
    state.widget_rects.note_last(fmt::format("try {}", number + 1));
    ImGui::PopID();
    ImGui::SameLine();
    ImGui::BeginGroup();
    ImGui::PushTextWrapPos(0);
    ImGui::TextUnformatted(thing.what.c_str());
    ImGui::PushFont(state.style.fonts.small);
    ImGui::TextDisabled("%s", thing.costs.c_str());
    for (const plan::Caution caution : thing.cautions)
        ImGui::TextDisabled("%s", to_words(caution).c_str());
    ImGui::PopFont();
    ImGui::PopTextWrapPos();
    ImGui::EndGroup();
}

}  // namespace

void draw_advice_panel(WindowState& state) {
    draw_limits(state);
    if (button(state, "Look for answers",
               "Settings and small moves that keep every face as good as "
               "you ask, most background blur first."))
        ask_for_advice(state);
    if (state.advice.is_asked()) {
        ImGui::SameLine();
        ImGui::TextDisabled("looking …");
    }
    if (!state.advice.has_answer())
        return;
    const auto answers = state.advice.answers(state.sitting.scene(), state.style.lengths);
    if (!answers) {
        ImGui::SameLine();
        ImGui::TextDisabled("the scene has changed: look again");
        return;
    }
    if (!answers->take_back.values.empty()) {
        ImGui::SameLine();
        if (button(state, "Take back", "Back to the scene as it was when you asked."))
            state.make(answers->take_back);
    }
    ImGui::Spacing();
    if (!answers->is_possible) {
        ImGui::PushTextWrapPos(0);
        ImGui::TextUnformatted("Nothing within these limits. What comes nearest:");
        ImGui::PopTextWrapPos();
    }
    for (std::size_t i = 0; i < answers->things.size(); ++i)
        draw_answer(state, answers->things[i], i);
}

}  // namespace backrow::window
