#include "window/commands/commands.h"
#include "window/face_words.h"
#include "window/panels/panels.h"

#include "rehearsal/two_states.h"

#include "optics/stops.h"

#include <fmt/format.h>

#include <algorithm>

namespace backrow::window {

void draw_top_bar(WindowState& state, const Area& area) {
    const rehearsal::EditedScene& edited = state.sitting.edited();
    ImGui::SetCursorScreenPos({area.least.x, area.least.y + state.style.units(4)});
    ImGui::BeginGroup();
    const auto when = [&](bool possible, const char* label, const std::string& lesson) {
        if (!possible)
            ImGui::PushStyleVar(ImGuiStyleVar_Alpha, 0.45f);
        const bool pressed = ImGui::Button(label) && possible;
        if (!possible)
            ImGui::PopStyleVar();
        state.widget_rects.note_last(std::string{"button "} + label);
        teach(state, lesson.c_str());
        ImGui::SameLine();
        return pressed;
    };
    if (when(edited.can_undo(), "Undo",
             edited.can_undo() ? "Take back: " + edited.undone_next() + " (Ctrl Z)"
                               : std::string{"Nothing to take back."}))
        undo(state);
    if (when(edited.can_redo(), "Redo",
             edited.can_redo() ? "Do again: " + edited.redone_next() + " (Ctrl Y)"
                               : std::string{"Nothing to do again."}))
        redo(state);
    if (when(edited.has_unsaved_changes(), "Save",
             "Into the scene's file; its comments and their order stay (Ctrl S)."))
        save(state);
    if (when(true, "Open", "Another scene (Ctrl O)."))
        show_path_sheet(state, Sheet::open);
    if (when(!state.saving, "Save picture",
             "The whole picture at full quality, made in the background (Ctrl P)."))
        show_path_sheet(state, Sheet::save_picture);
    if (when(true, "Keep",
             "Keep this state, try something else, and hold Space to see the "
             "difference (K)."))
        keep_state(state);
    if (when(true, state.look.is_full_size ? "Whole picture" : "100 %",
             "One pixel of the camera is one of the screen: the only way to judge a face (V)."))
        show_at_full_size(state);
    if (when(true, state.style.theme.is_dark ? "Day" : "Night", "Light or dark surroundings (L)."))
        change_light(state);
    if (when(true, "Keys", "Everything by keyboard (F1)."))
        state.sheets.show(Sheet::keys);
    ImGui::EndGroup();

    // The title takes what is left, from the right.
    const std::string title = state.sitting.scene().title;
    const float room = area.most.x - ImGui::GetItemRectMax().x - state.style.units(20);
    ImFont& font = *state.style.fonts.bold;
    const float width = font.CalcTextSizeA(font.FontSize, FLT_MAX, 0, title.c_str()).x +
                        (edited.has_unsaved_changes() ? state.style.units(90) : 0.0f);
    const float left = area.most.x - std::min(width, room);
    ImDrawList& on = *ImGui::GetWindowDrawList();
    on.PushClipRect({left, area.least.y}, area.most, true);
    const float y = area.least.y + state.style.units(8);
    if (edited.has_unsaved_changes()) {
        on.AddCircleFilled({left + state.style.units(6), y + font.FontSize / 2},
                           state.style.units(4), state.style.theme.accent);
        on.AddText(state.style.fonts.small, state.style.fonts.small->FontSize,
                   {left + state.style.units(15), y + 2}, state.style.theme.faint_ink, "unsaved");
    }
    on.AddText(&font, font.FontSize,
               {left + (edited.has_unsaved_changes() ? state.style.units(85) : 0), y},
               state.style.theme.ink, title.c_str());
    on.PopClipRect();
}

void draw_foot(WindowState& state, const Area& area) {
    ImDrawList& on = *ImGui::GetWindowDrawList();
    std::string words;
    ImU32 colour = state.style.theme.faint_ink;
    const rehearsal::Facts& facts = state.sitting.facts();
    const plan::Face& worst = facts.table.faces[facts.worst_first.front()];
    if (!state.sitting.complaint().empty()) {
        words = state.sitting.complaint();
        colour = state.style.theme.accent;
    } else if (state.changed_on_disk) {
        words = "The file has changed on disk: Ctrl R takes what it has now.";
        colour = state.style.theme.accent;
    } else if (!state.notice.empty()) {
        words = state.notice;
    } else if (state.kept.scene() != nullptr &&
               state.kept.compared_edition == state.sitting.edition() &&
               !state.kept.comparison.empty()) {
        words = "Against the kept state: " + state.kept.comparison;
    } else {
        words = fmt::format("Least sharp: {}, {}", worst.name, blur_words(worst));
    }
    ImFont& font = *state.style.fonts.small;
    on.AddText(&font, font.FontSize, area.least, colour, words.c_str());

    std::string work;
    if (state.saving)
        work = fmt::format("saving {}: {:.0f} % (Esc stops it)   ", state.saving->path(),
                           state.saving->share() * 100);
    if (state.pictures.work == Work::lighting)
        work += fmt::format("light and shadow {:.0f} %", state.pictures.share * 100);
    else if (const int points = state.pictures.picture.print.samples; points > 0)
        work += fmt::format("{} point{} of the lens{}", points, points == 1 ? "" : "s",
                            state.pictures.work == Work::exposing ? "" : ", done");
    const float width = font.CalcTextSizeA(font.FontSize, FLT_MAX, 0, work.c_str()).x;
    on.AddRectFilled({area.most.x - width - 12, area.least.y}, area.most, state.style.theme.desk);
    on.AddText(&font, font.FontSize, {area.most.x - width, area.least.y},
               state.style.theme.faint_ink, work.c_str());
}

}  // namespace backrow::window
