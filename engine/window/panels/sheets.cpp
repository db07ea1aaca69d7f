#include "window/commands/commands.h"
#include "window/commands/keys.h"
#include "window/commands/place_commands.h"
#include "window/panels/file_chooser.h"
#include "window/panels/panels.h"

namespace backrow::window {
namespace {

void chooser_sheet(WindowState& state, const ChooserWords& words,
                   void (*command)(WindowState&, const std::string&)) {
    ChooserEnd end = ChooserEnd::goes_on;
    const auto chosen = draw_file_chooser(state, *state.sheets.chooser, words, end);
    if (end == ChooserEnd::cancelled)
        state.sheets.close();
    else if (chosen)
        command(state, *chosen);
}

float keys_column(const WindowState& state) {
    return state.style.units(336);
}

/// In three columns; groups begin where the table of keys says.
void list_keys(WindowState& state) {
    const float tab = state.style.units(84);
    ImGui::Columns(3, "keys", false);
    for (int i = 0; i < 3; ++i)
        ImGui::SetColumnWidth(i, keys_column(state));
    for (const Key& key : all_keys()) {
        if (key.group != nullptr) {
            const std::string_view group{key.group};
            if (group == "People" || group == "Advice")
                ImGui::NextColumn();
            else
                ImGui::Spacing();
            ImGui::PushFont(state.style.fonts.bold);
            ImGui::TextUnformatted(key.group);
            ImGui::PopFont();
        }
        if (key.shown == nullptr)
            continue;
        ImGui::TextColored(ImGui::ColorConvertU32ToFloat4(state.style.theme.accent), "%s",
                           key.shown);
        ImGui::SameLine(tab);
        ImGui::TextUnformatted(key.does);
    }
    ImGui::Columns(1);
}

void keys_sheet(WindowState& state) {
    ImGui::PushFont(state.style.fonts.large);
    ImGui::TextUnformatted("Keys");
    ImGui::PopFont();
    list_keys(state);
    ImGui::Separator();
    ImGui::PushFont(state.style.fonts.bold);
    ImGui::TextUnformatted("Mouse");
    ImGui::PopFont();
    ImGui::TextUnformatted(
        "Over the picture the wheel turns the aperture; with Shift the distance, with Ctrl the "
        "focal length, with Alt the focus.\n"
        "A click on a face chooses, a double click focuses on its nearer eye. In the picture and "
        "from "
        "above, people can be dragged\n"
        "along their row and into another, with Shift anywhere; from above the camera and the "
        "plane "
        "of focus, too. Over a person, Ctrl and the wheel turn, Shift and the "
        "wheel lean. From the side, heads are\n"
        "dragged forward and back; with Shift they lean. The wheel enlarges a drawing, the right "
        "button moves it, a double click shows all.");
    ImGui::Spacing();
    if (button(state, "Close", "Esc does the same."))
        state.sheets.close();
}

void leave_sheet(WindowState& state) {
    ImGui::PushFont(state.style.fonts.large);
    ImGui::TextUnformatted("There are changes that are not saved.");
    ImGui::PopFont();
    if (state.giving)
        ImGui::TextUnformatted("What is to be given away is still being made; it would be lost.");
    const auto go_on = [&] {
        if (state.sheets.open_after_leaving.empty())
            state.sheets.is_leaving = true;
        else
            open(state, std::string{state.sheets.open_after_leaving});
    };
    if (button(state, "Save and go on", "Into the scene's file.")) {
        save(state);
        if (!state.sitting.edited().has_unsaved_changes())
            go_on();
        else
            state.sheets.close();
    }
    ImGui::SameLine();
    if (button(state, "Leave them", "What was not saved is gone."))
        go_on();
    ImGui::SameLine();
    if (button(state, "Stay", "Esc does the same.")) {
        state.sheets.close();
    }
}

void left_behind_sheet(WindowState& state) {
    ImGui::PushFont(state.style.fonts.large);
    ImGui::TextUnformatted("Unsaved changes of an earlier rehearsal were found.");
    ImGui::PopFont();
    ImGui::TextUnformatted("It did not end in order. Take them up again?");
    if (button(state, "Take them up", "As one change, which can be undone."))
        take_left_behind(state);
    ImGui::SameLine();
    if (button(state, "Forget them", "The scene stays as its file has it."))
        forget_left_behind(state);
}

/// What was changed here and, otherwise, in the file: which of both is to be.
void clash_sheet(WindowState& state) {
    SheetState& sheet = state.sheets;
    ImGui::PushFont(state.style.fonts.large);
    ImGui::TextUnformatted("The file was changed elsewhere as well.");
    ImGui::PopFont();
    if (sheet.is_either_or) {
        ImGui::TextUnformatted(
            "The two cannot be brought together, so one of them has to be chosen.\n"
            "Ctrl Z brings back the other as long as this window is open.");
        if (button(state, "Keep what is here", "The file gets it when you save.")) {
            sheet.takes_whole_file = false;
            settle_clashes(state);
        }
        ImGui::SameLine();
        if (button(state, "Take what the file has", "What was done here goes, until you undo.")) {
            sheet.takes_whole_file = true;
            settle_clashes(state);
        }
        ImGui::SameLine();
        if (button(state, "Neither yet", "Esc does the same."))
            sheet.close();
        return;
    }
    ImGui::TextUnformatted("Everything else is brought together. Which of these is to be?");
    for (std::size_t i = 0; i < sheet.clashes.size(); ++i) {
        const rehearsal::Clash& clash = sheet.clashes[i];
        const auto shown = [](const std::string& value) {
            return value.empty() ? std::string{"nothing"} : value;
        };
        ImGui::PushID(static_cast<int>(i));
        ImGui::AlignTextToFramePadding();
        ImGui::TextUnformatted(clash.key.c_str());
        ImGui::SameLine(state.style.units(200));
        if (ImGui::RadioButton(("here: " + shown(clash.here)).c_str(), !sheet.takes_from_file[i]))
            sheet.takes_from_file[i] = false;
        state.widget_rects.note_last("here " + clash.key);
        ImGui::SameLine(0, state.style.units(16));
        if (!clash.in_file.empty() &&
            ImGui::RadioButton(("in the file: " + clash.in_file).c_str(),
                               static_cast<bool>(sheet.takes_from_file[i])))
            sheet.takes_from_file[i] = true;
        state.widget_rects.note_last("in file " + clash.key);
        ImGui::PopID();
    }
    if (button(state, "Go on", "With what is chosen above."))
        settle_clashes(state);
    ImGui::SameLine();
    if (button(state, "Not yet", "Esc does the same."))
        sheet.close();
}

/// How a new group was arranged, and why.
void reasons_sheet(WindowState& state) {
    ImGui::PushFont(state.style.fonts.large);
    ImGui::TextUnformatted(state.sitting.scene().title.c_str());
    ImGui::PopFont();
    ImGui::PushTextWrapPos(state.style.units(460));
    for (const std::string& reason : state.first_page.reasons)
        ImGui::TextUnformatted(reason.c_str());
    ImGui::Spacing();
    ImGui::TextDisabled("The scene file says the same in its comments. It has no name yet: "
                        "Ctrl S asks for one.");
    ImGui::PopTextWrapPos();
    if (button(state, "To the picture", "Esc does the same."))
        state.sheets.close();
}

void draw_contents(WindowState& state) {
    switch (state.sheets.shown) {
    case Sheet::keys:
        return keys_sheet(state);
    case Sheet::open:
        return chooser_sheet(state, {"Open a scene", "Open"}, open);
    case Sheet::save_as:
        return chooser_sheet(state, {"Save the scene as", "Save here"}, save_as);
    case Sheet::give_away:
        return draw_give_away_sheet(state);
    case Sheet::leave:
        return leave_sheet(state);
    case Sheet::left_behind:
        return left_behind_sheet(state);
    case Sheet::clash:
        return clash_sheet(state);
    case Sheet::reasons:
        return reasons_sheet(state);
    case Sheet::photo_file:
        return chooser_sheet(state, {"A photo of the place", "Hang it"}, hang_photo);
    case Sheet::panorama_file:
        return chooser_sheet(state, {"A picture all round, in place of the sky", "Hang it"},
                             hang_panorama);
    case Sheet::model_file:
        return chooser_sheet(state, {"A model", "Add it"}, add_model);
    case Sheet::photo_size:
        return draw_photo_sheet(state);
    case Sheet::none:
        return;
    }
}

/// On a sheet Tab and arrows go from one thing to the next and Space presses it; over the window
/// and in a list they have other things to do.
void let_keys_walk(const WindowState& state) {
    const bool walks = (state.sheets.shown != Sheet::none && !state.sheets.chooser) ||
                       state.keys_in_panel || state.shows_first_page;
    ImGuiConfigFlags& flags = ImGui::GetIO().ConfigFlags;
    flags = walks ? flags | ImGuiConfigFlags_NavEnableKeyboard
                  : flags & ~ImGuiConfigFlags_NavEnableKeyboard;
}

}  // namespace

void draw_sheet(WindowState& state) {
    let_keys_walk(state);
    if (state.sheets.shown == Sheet::none)
        return;
    const ImVec2 size = ImGui::GetIO().DisplaySize;
    ImGui::GetForegroundDrawList();
    ImGui::SetNextWindowPos({size.x / 2, size.y / 2}, ImGuiCond_Always, {0.5f, 0.5f});
    ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding,
                        {state.style.units(20), state.style.units(16)});
    ImGui::PushStyleVar(ImGuiStyleVar_WindowBorderSize, 1);
    if (state.sheets.shown == Sheet::keys)
        ImGui::SetNextWindowContentSize({3 * keys_column(state), 0});
    ImGui::Begin("sheet", nullptr,
                 ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove |
                     ImGuiWindowFlags_AlwaysAutoResize | ImGuiWindowFlags_NoSavedSettings);
    if (!ImGui::IsWindowFocused(ImGuiFocusedFlags_ChildWindows))
        ImGui::SetWindowFocus();
    draw_contents(state);
    // Where it has grown or shrunk it moves with the next frame, for it stays in the middle.
    const float end = ImGui::GetCursorPosY();
    if (ImGui::IsWindowAppearing() || end != state.sheets.end_of_contents)
        state.widget_rects.wait_a_frame();
    state.sheets.end_of_contents = end;
    ImGui::End();
    ImGui::PopStyleVar(2);
}

}  // namespace backrow::window
