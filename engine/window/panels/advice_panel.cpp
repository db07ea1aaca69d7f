#include "window/commands/commands.h"
#include "window/panels/panels.h"

#include "rehearsal/answers.h"

#include <fmt/format.h>

#include <algorithm>

namespace backrow::window {

void draw_advice_panel(WindowState& state) {
    AskedAdvice& asked = state.asked;
    bool changed = false;
    int grade = asked.wanted.grade == optics::Grade::crisp ? 1 : 0;
    ImGui::AlignTextToFramePadding();
    ImGui::TextUnformatted("Every face");
    ImGui::SameLine();
    changed |= ImGui::RadioButton("fine", &grade, 0);
    ImGui::SameLine();
    changed |= ImGui::RadioButton("crisp", &grade, 1);
    asked.wanted.grade = grade == 1 ? optics::Grade::crisp : optics::Grade::fine;
    ImGui::SetNextItemWidth(static_cast<float>(110 * state.scale));
    changed |=
        ImGui::SliderInt("cm at most for anybody to move", &asked.wanted.most_move_cm, 0, 60);
    teach(state, "People move forward and back only, by whole centimetres.");
    ImGui::SetNextItemWidth(static_cast<float>(110 * state.scale));
    changed |= ImGui::SliderFloat("m that you can step back", &asked.step_back_m, 0, 4, "%.1f");
    teach(state, "Look behind you before you step back.");
    if (changed)
        change_limits(state, 0, 0, false);

    if (button(state, "Look for answers",
               "Settings and small moves that keep every face as good as "
               "you ask, most background blur first."))
        ask_for_advice(state);
    if (asked.work.is_asked()) {
        ImGui::SameLine();
        ImGui::TextDisabled("looking …");
    }
    if (!asked.advice || !asked.scene)
        return;
    const auto answers = rehearsal::answers(*asked.scene, state.sitting.scene(), *asked.advice);
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
    for (std::size_t i = 0; i < answers->things.size(); ++i) {
        const rehearsal::ThingToTry& thing = answers->things[i];
        ImGui::PushID(static_cast<int>(i));
        if (thing.is_now) {
            ImGui::AlignTextToFramePadding();
            ImGui::TextColored(ImGui::ColorConvertU32ToFloat4(state.theme.accent), " now ");
        } else if (ImGui::Button("Try")) {
            state.make(thing.change);
        }
        state.widget_rects.note_last(fmt::format("try {}", i + 1));
        ImGui::PopID();
        ImGui::SameLine();
        ImGui::BeginGroup();
        ImGui::PushTextWrapPos(0);
        ImGui::TextUnformatted(thing.what.c_str());
        ImGui::PushFont(state.fonts.small);
        ImGui::TextDisabled("%s", thing.costs.c_str());
        if (thing.moves_somebody_raised)
            ImGui::TextDisabled(
                "Somebody on a riser moves: mind its edge, and the rules of the place.");
        ImGui::PopFont();
        ImGui::PopTextWrapPos();
        ImGui::EndGroup();
    }
}

void draw_odds_panel(WindowState& state) {
    AskedOdds& odds = state.odds;
    int grade = odds.grade == optics::Grade::crisp ? 1 : 0;
    ImGui::AlignTextToFramePadding();
    ImGui::TextUnformatted("Every face");
    ImGui::SameLine();
    bool changed = ImGui::RadioButton("fine##odds", &grade, 0);
    ImGui::SameLine();
    changed |= ImGui::RadioButton("crisp##odds", &grade, 1);
    odds.grade = grade == 1 ? optics::Grade::crisp : optics::Grade::fine;
    if ((changed || odds.edition != state.sitting.edition()) && !state.drag)
        ask_for_odds(state);
    if (!odds.odds) {
        ImGui::TextDisabled("counting …");
        return;
    }
    const plan::Odds& counted = *odds.odds;
    ImGui::TextUnformatted(fmt::format("All faces {}: {:.1f} % of frames",
                                       optics::to_word(odds.grade), counted.sharp.value * 100)
                               .c_str());
    teach(state, "Nobody stands like a statue: people sway, and so does the photographer.");
    ImGui::TextUnformatted(fmt::format("All eyes open: {:.1f} %", counted.eyes_open * 100).c_str());
    teach(state, "Of twelve people somebody blinks in every other frame.");
    ImGui::TextUnformatted(fmt::format("Both: {:.1f} %", counted.both.value * 100).c_str());
    const auto frames = [](const std::optional<std::int64_t>& count) {
        return count ? fmt::format("{}", *count) : std::string{"–"};
    };
    ImGui::PushTextWrapPos(0);
    ImGui::TextUnformatted(
        fmt::format("Frames to shoot for one good one: {} for 90 % certainty, {} for 95 %, {} for "
                    "99 %",
                    frames(counted.frames.p90), frames(counted.frames.p95),
                    frames(counted.frames.p99))
            .c_str());
    ImGui::PopTextWrapPos();
    std::vector<std::size_t> order(counted.faces.size());
    for (std::size_t i = 0; i < order.size(); ++i)
        order[i] = i;
    std::ranges::stable_sort(order, {},
                             [&](std::size_t i) { return counted.faces[i].sharp.value; });
    ImGui::Spacing();
    for (std::size_t i = 0; i < std::min<std::size_t>(3, order.size()); ++i)
        ImGui::TextUnformatted(fmt::format("{}: {} in {:.1f} %", counted.faces[order[i]].name,
                                           optics::to_word(odds.grade),
                                           counted.faces[order[i]].sharp.value * 100)
                                   .c_str());
}

}  // namespace backrow::window
