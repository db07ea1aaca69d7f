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

namespace {

struct NamedTab {
    Tab tab;
    const char* name;
    void (*draw)(WindowState&);
};
constexpr NamedTab tabs[]{{Tab::camera, "Camera", draw_camera_panel},
                          {Tab::person, "Person", draw_person_panel},
                          {Tab::answers, "Advice", draw_advice_panel},
                          {Tab::odds, "Odds", draw_odds_panel}};

void draw_tab(WindowState& state, const NamedTab& named) {
    const Style& style = state.style;
    const bool is_shown = state.tab == named.tab;
    ImGui::PushStyleColor(ImGuiCol_Text, is_shown ? style.theme.ink : style.theme.faint_ink);
    ImGui::PushFont(is_shown ? style.fonts.bold : style.fonts.plain);
    ImGui::PushStyleColor(ImGuiCol_Button, IM_COL32_BLACK_TRANS);
    if (ImGui::Button(named.name))
        state.tab = named.tab;
    ImGui::PopStyleColor(2);
    ImGui::PopFont();
    state.widget_rects.note_last(std::string{"tab "} + named.name);
    if (!is_shown)
        return;
    const ImVec2 least = ImGui::GetItemRectMin();
    const ImVec2 most = ImGui::GetItemRectMax();
    ImGui::GetWindowDrawList()->AddRectFilled(
        {least.x, most.y}, {most.x, most.y + style.units(2.5)}, style.theme.accent);
}

}  // namespace

void draw_panel(WindowState& state, const Area& area) {
    const Style& style = state.style;
    ImGui::GetWindowDrawList()->AddRectFilled(area.least, area.most, style.theme.paper);
    ImGui::SetCursorScreenPos({area.least.x + style.units(8), area.least.y + style.units(6)});
    ImGui::BeginChild("panel", {area.width() - style.units(14), area.height() - style.units(10)});
    for (const NamedTab& named : tabs) {
        draw_tab(state, named);
        ImGui::SameLine();
    }
    ImGui::NewLine();
    ImGui::Spacing();
    ImGui::BeginChild("of tab");
    for (const NamedTab& named : tabs)
        if (state.tab == named.tab)
            named.draw(state);
    ImGui::EndChild();
    ImGui::EndChild();
}

}  // namespace backrow::window
