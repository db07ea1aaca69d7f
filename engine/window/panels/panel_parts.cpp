#include "window/panels/panels.h"

namespace backrow::window {

int stepper(WindowState& state, const char* label, const std::string& words, const char* less,
            const char* more, const char* lesson) {
    const auto column = state.style.units(70);
    const ImVec2 button_size{state.style.units(64), 0};
    const auto value = state.style.units(162);
    ImGui::AlignTextToFramePadding();
    const float left = ImGui::GetCursorPosX();
    ImGui::TextUnformatted(label);
    teach(state, lesson);
    ImGui::SameLine(left + column);
    int pressed = 0;
    ImGui::PushID(label);
    ImGui::PushButtonRepeat(true);
    if (ImGui::Button(less, button_size))
        pressed = -1;
    state.widget_rects.note_last(std::string{label} + " less");
    ImGui::SameLine();
    ImGui::PushFont(state.style.fonts.bold);
    ImGui::TextUnformatted(words.c_str());
    ImGui::PopFont();
    teach(state, lesson);
    ImGui::SameLine(left + column + value);
    if (ImGui::Button(more, button_size))
        pressed = 1;
    state.widget_rects.note_last(std::string{label} + " more");
    ImGui::PopButtonRepeat();
    ImGui::PopID();
    return pressed;
}

bool choose_grade(optics::Grade& grade, const char* name) {
    int number = grade == optics::Grade::crisp ? 1 : 0;
    ImGui::AlignTextToFramePadding();
    ImGui::TextUnformatted("Every face");
    ImGui::PushID(name);
    ImGui::SameLine();
    bool changed = ImGui::RadioButton("fine", &number, 0);
    ImGui::SameLine();
    changed |= ImGui::RadioButton("crisp", &number, 1);
    ImGui::PopID();
    grade = number == 1 ? optics::Grade::crisp : optics::Grade::fine;
    return changed;
}

bool button(WindowState& state, const char* label, const char* lesson) {
    const bool pressed = ImGui::Button(label);
    state.widget_rects.note_last(std::string{"button "} + label);
    teach(state, lesson);
    return pressed;
}

void draw_panel(WindowState& state, const Area& area) {
    ImDrawList& on = *ImGui::GetWindowDrawList();
    on.AddRectFilled(area.least, area.most, state.style.theme.paper);
    ImGui::SetCursorScreenPos(
        {area.least.x + state.style.units(8), area.least.y + state.style.units(6)});
    ImGui::BeginChild(
        "panel", {area.width() - state.style.units(14), area.height() - state.style.units(10)});
    struct Named {
        Tab tab;
        const char* name;
        void (*draw)(WindowState&);
    };
    constexpr Named tabs[]{{Tab::camera, "Camera", draw_camera_panel},
                           {Tab::person, "Person", draw_person_panel},
                           {Tab::answers, "Advice", draw_advice_panel},
                           {Tab::odds, "Odds", draw_odds_panel}};
    for (const Named& named : tabs) {
        const bool is_shown = state.tab == named.tab;
        ImGui::PushStyleColor(ImGuiCol_Text,
                              is_shown ? state.style.theme.ink : state.style.theme.faint_ink);
        ImGui::PushFont(is_shown ? state.style.fonts.bold : state.style.fonts.plain);
        ImGui::PushStyleColor(ImGuiCol_Button, IM_COL32_BLACK_TRANS);
        if (ImGui::Button(named.name))
            state.tab = named.tab;
        ImGui::PopStyleColor(2);
        ImGui::PopFont();
        state.widget_rects.note_last(std::string{"tab "} + named.name);
        if (is_shown) {
            const ImVec2 least = ImGui::GetItemRectMin();
            const ImVec2 most = ImGui::GetItemRectMax();
            ImGui::GetWindowDrawList()->AddRectFilled({least.x, most.y},
                                                      {most.x, most.y + state.style.units(2.5)},
                                                      state.style.theme.accent);
        }
        ImGui::SameLine();
    }
    ImGui::NewLine();
    ImGui::Spacing();
    ImGui::BeginChild("of tab");
    for (const Named& named : tabs)
        if (state.tab == named.tab)
            named.draw(state);
    ImGui::EndChild();
    ImGui::EndChild();
}

}  // namespace backrow::window
