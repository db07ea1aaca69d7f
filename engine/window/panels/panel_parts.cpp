#include "window/panels/panels.h"

namespace backrow::window {

int stepper(WindowState& state, const char* label, const std::string& words, const char* less,
            const char* more, const char* lesson) {
    const auto column = static_cast<float>(70 * state.scale);
    const ImVec2 button_size{static_cast<float>(64 * state.scale), 0};
    const auto value = static_cast<float>(162 * state.scale);
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
    ImGui::PushFont(state.fonts.bold);
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

bool button(WindowState& state, const char* label, const char* lesson) {
    const bool pressed = ImGui::Button(label);
    state.widget_rects.note_last(std::string{"button "} + label);
    teach(state, lesson);
    return pressed;
}

void draw_panel(WindowState& state, const Area& area) {
    ImDrawList& on = *ImGui::GetWindowDrawList();
    on.AddRectFilled(area.least, area.most, state.theme.paper);
    ImGui::SetCursorScreenPos({area.least.x + static_cast<float>(8 * state.scale),
                               area.least.y + static_cast<float>(6 * state.scale)});
    ImGui::BeginChild("panel", {area.width() - static_cast<float>(14 * state.scale),
                                area.height() - static_cast<float>(10 * state.scale)});
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
        ImGui::PushStyleColor(ImGuiCol_Text, is_shown ? state.theme.ink : state.theme.faint_ink);
        ImGui::PushFont(is_shown ? state.fonts.bold : state.fonts.plain);
        ImGui::PushStyleColor(ImGuiCol_Button, IM_COL32_BLACK_TRANS);
        if (ImGui::Button(named.name))
            state.tab = named.tab;
        ImGui::PopStyleColor(2);
        ImGui::PopFont();
        state.widget_rects.note_last(std::string{"tab "} + named.name);
        if (is_shown) {
            const ImVec2 least = ImGui::GetItemRectMin();
            const ImVec2 most = ImGui::GetItemRectMax();
            ImGui::GetWindowDrawList()->AddRectFilled(
                {least.x, most.y}, {most.x, most.y + static_cast<float>(2.5 * state.scale)},
                state.theme.accent);
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
