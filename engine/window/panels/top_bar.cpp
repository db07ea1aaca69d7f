#include "window/commands/commands.h"
#include "window/face_words.h"
#include "window/panels/panels.h"

#include "report/text/trouble_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>

namespace backrow::window {

namespace {

/// A button of the bar, faint where there is nothing to do. Whether it was pressed.
bool bar_button(WindowState& state, bool is_possible, const char* label,
                const std::string& lesson) {
    if (!is_possible)
        ImGui::PushStyleVar(ImGuiStyleVar_Alpha, 0.45f);
    const bool pressed = ImGui::Button(label) && is_possible;
    if (!is_possible)
        ImGui::PopStyleVar();
    state.widget_rects.note_last(std::string{"button "} + label);
    teach(state, lesson.c_str());
    ImGui::SameLine();
    return pressed;
}

void draw_file_buttons(WindowState& state) {
    const rehearsal::EditedScene& edited = state.sitting.edited();
    if (bar_button(state, edited.can_undo(), "Undo",
                   edited.can_undo()
                       ? "Take back: " + edited.undone_next(state.style.lengths) + " (Ctrl Z)"
                       : std::string{"Nothing to take back."}))
        undo(state);
    if (bar_button(state, edited.can_redo(), "Redo",
                   edited.can_redo()
                       ? "Do again: " + edited.redone_next(state.style.lengths) + " (Ctrl Y)"
                       : std::string{"Nothing to do again."}))
        redo(state);
    if (bar_button(state, edited.has_unsaved_changes(), "Save",
                   "Into the scene's file; its comments and their order stay (Ctrl S)."))
        save(state);
    if (bar_button(state, true, "Open", "Another scene (Ctrl O)."))
        show_path_sheet(state, Sheet::open);
    if (bar_button(state, !state.saving, "Save picture",
                   "The whole picture at full quality, made in the background (Ctrl P)."))
        show_path_sheet(state, Sheet::save_picture);
}

void draw_look_buttons(WindowState& state) {
    if (bar_button(state, true, "Keep",
                   "Keep this state, try something else, and hold Space to see the "
                   "difference (K)."))
        keep_state(state);
    if (bar_button(state, true, state.look.is_full_size ? "Whole picture" : "100 %",
                   "One pixel of the camera is one of the screen: the only way to judge a face "
                   "(V)."))
        show_at_full_size(state);
    if (bar_button(state, true, state.style.theme.is_dark ? "Day" : "Night",
                   "Light or dark surroundings (L)."))
        change_light(state);
    if (bar_button(state, true, "Keys", "Everything by keyboard (F1)."))
        state.sheets.show(Sheet::keys);
}

/// Takes what the buttons leave, from the right.
void draw_scene_title(const WindowState& state, const Area& area, float buttons_end) {
    const Style& style = state.style;
    const bool is_unsaved = state.sitting.edited().has_unsaved_changes();
    const std::string& title = state.sitting.scene().title;
    const float room = area.most.x - buttons_end - style.units(20);
    ImFont& font = *style.fonts.bold;
    const float width = font.CalcTextSizeA(font.FontSize, FLT_MAX, 0, title.c_str()).x +
                        (is_unsaved ? style.units(90) : 0.0f);
    const float left = area.most.x - std::min(width, room);
    ImDrawList& on = *ImGui::GetWindowDrawList();
    on.PushClipRect({left, area.least.y}, area.most, true);
    const float y = area.least.y + style.units(8);
    if (is_unsaved) {
        on.AddCircleFilled({left + style.units(6), y + font.FontSize / 2}, style.units(4),
                           style.theme.accent);
        on.AddText(style.fonts.small, style.fonts.small->FontSize, {left + style.units(15), y + 2},
                   style.theme.faint_ink, "unsaved");
    }
    on.AddText(&font, font.FontSize, {left + (is_unsaved ? style.units(85) : 0), y},
               style.theme.ink, title.c_str());
    on.PopClipRect();
}

/// What there is to say, the most urgent first, and whether it wants to be noticed.
struct FootLine {
    std::string words;
    bool is_urgent = false;
};

FootLine foot_line(const WindowState& state) {
    if (!state.sitting.complaint().empty())
        return {state.sitting.complaint(), true};
    if (state.changed_on_disk)
        return {"The file has changed on disk: Ctrl R takes what it has now.", true};
    if (!state.notice.empty())
        return {state.notice};
    if (const std::string* comparison = state.kept.comparison_with(state.sitting))
        return {"Against the kept state: " + *comparison};
    const rehearsal::Facts& facts = state.sitting.facts();
    const std::vector<plan::Face>& faces = facts.table.faces;
    const plan::Face& worst = faces[facts.worst_first.front()];
    if (const std::string trouble = report::face_trouble_words(worst); !trouble.empty())
        return {fmt::format("{}: {} ({} in all)", worst.name, trouble,
                            report::short_trouble_words(faces)),
                true};
    return {fmt::format("Least sharp: {}, {}", worst.name, blur_words(worst))};
}

std::string work_words(const WindowState& state) {
    std::string work;
    if (state.saving)
        work = fmt::format("saving {}: {:.0f} % (Esc stops it)   ", state.saving->path(),
                           state.saving->share() * 100);
    if (state.pictures.work == Work::lighting)
        return work + fmt::format("light and shadow {:.0f} %", state.pictures.share * 100);
    if (const int points = state.pictures.picture.print.samples; points > 0)
        work += fmt::format("{} point{} of the lens{}", points, points == 1 ? "" : "s",
                            state.pictures.work == Work::exposing ? "" : ", done");
    return work;
}

}  // namespace

void draw_top_bar(WindowState& state, const Area& area) {
    ImGui::SetCursorScreenPos({area.least.x, area.least.y + state.style.units(4)});
    ImGui::BeginGroup();
    draw_file_buttons(state);
    draw_look_buttons(state);
    ImGui::EndGroup();
    draw_scene_title(state, area, ImGui::GetItemRectMax().x);
}

void draw_foot(WindowState& state, const Area& area) {
    ImDrawList& on = *ImGui::GetWindowDrawList();
    const Theme& theme = state.style.theme;
    ImFont& font = *state.style.fonts.small;
    const FootLine line = foot_line(state);
    on.AddText(&font, font.FontSize, area.least, line.is_urgent ? theme.accent : theme.faint_ink,
               line.words.c_str());
    const std::string work = work_words(state);
    const float width = font.CalcTextSizeA(font.FontSize, FLT_MAX, 0, work.c_str()).x;
    on.AddRectFilled({area.most.x - width - 12, area.least.y}, area.most, theme.desk);
    on.AddText(&font, font.FontSize, {area.most.x - width, area.least.y}, theme.faint_ink,
               work.c_str());
}

}  // namespace backrow::window
