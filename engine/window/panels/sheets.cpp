#include "window/commands/commands.h"
#include "window/commands/keys.h"
#include "window/commands/place_commands.h"
#include "window/panels/file_chooser.h"
#include "window/panels/panels.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <string_view>

namespace backrow::window {
namespace {

constexpr double padding_units = 20;  ///< Round what a sheet says …
constexpr double edge_units = 8;      ///< … and round the sheet.
constexpr double text_units = 460;
constexpr double keys_column_units = 336;

/// So wide, or as wide as the window has room for.
float sheet_width(const WindowState& state, double units) {
    const float room = ImGui::GetIO().DisplaySize.x -
                       2 * state.style.units(padding_units + edge_units) -
                       ImGui::GetStyle().ScrollbarSize;
    return std::min(state.style.units(units), room);
}

/// As many lines of it as it needs.
void say(const WindowState& state, const char* words, double width_units = text_units) {
    ImGui::PushTextWrapPos(state.style.units(padding_units) + sheet_width(state, width_units));
    ImGui::TextUnformatted(words);
    ImGui::PopTextWrapPos();
}

void large_words(const WindowState& state, const char* words) {
    ImGui::PushFont(state.style.fonts.large);
    say(state, words);
    ImGui::PopFont();
}

void chooser_sheet(WindowState& state, const ChooserWords& words,
                   void (*command)(WindowState&, const std::string&)) {
    ChooserEnd end = ChooserEnd::goes_on;
    const auto chosen = draw_file_chooser(state, *state.sheets.chooser, words, end);
    if (end == ChooserEnd::cancelled)
        state.sheets.close();
    else if (chosen)
        command(state, *chosen);
}

float keys_width(const WindowState& state) {
    return sheet_width(state, 3 * keys_column_units);
}

/// In as many columns as there is room for.
void list_keys(WindowState& state) {
    // The groups with which another column begins.
    constexpr std::array<std::array<std::string_view, 2>, 3> begins{
        {{}, {"Looking"}, {"People", "Advice"}}};
    const float width = keys_width(state);
    const int columns =
        std::clamp(static_cast<int>(width / state.style.units(keys_column_units)), 1, 3);
    const float tab = state.style.units(84);
    ImGui::Columns(columns, "keys", false);
    for (int i = 0; i < columns && columns > 1; ++i)
        ImGui::SetColumnWidth(i, width / static_cast<float>(columns));
    ImGui::PushTextWrapPos(0);
    for (const Key& key : all_keys()) {
        if (key.group != nullptr) {
            if (std::ranges::find(begins[static_cast<std::size_t>(columns - 1)],
                                  std::string_view{key.group}) !=
                begins[static_cast<std::size_t>(columns - 1)].end())
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
    ImGui::PopTextWrapPos();
    ImGui::Columns(1);
}

/// Arrows and pages, where a sheet has nothing to walk through.
void scroll_by_keys() {
    const auto by = [](ImGuiKey key, float units) {
        if (ImGui::IsKeyPressed(ImGui::GetKeyIndex(key)))
            ImGui::SetScrollY(ImGui::GetScrollY() + units);
    };
    const float line = ImGui::GetTextLineHeightWithSpacing();
    by(ImGuiKey_DownArrow, line);
    by(ImGuiKey_UpArrow, -line);
    by(ImGuiKey_PageDown, ImGui::GetWindowHeight() - line);
    by(ImGuiKey_PageUp, line - ImGui::GetWindowHeight());
}

void keys_sheet(WindowState& state) {
    large_words(state, "Keys");
    ImGui::SameLine(0, state.style.units(24));
    // At the top, for what is below may be out of sight.
    if (button(state, "Close", "Esc does the same."))
        state.sheets.close();
    list_keys(state);
    ImGui::Separator();
    ImGui::PushFont(state.style.fonts.bold);
    ImGui::TextUnformatted("Mouse");
    ImGui::PopFont();
    say(state,
        "Over the picture the wheel turns the aperture; with Shift the distance, with Ctrl the "
        "focal length, with Alt the focus. A click on a face chooses, a double click focuses on "
        "its nearer eye. In the picture and from above, people can be dragged along their row and "
        "into another, with Shift anywhere; from above the camera and the plane of focus, too. "
        "Over a person, Ctrl and the wheel turn, Shift and the wheel lean. From the side, heads "
        "are dragged forward and back; with Shift they lean. The wheel enlarges a drawing, the "
        "right button moves it, a double click shows all. A value is typed once it is clicked on.",
        3 * keys_column_units);
    scroll_by_keys();
}

void leave_sheet(WindowState& state) {
    large_words(state, "There are changes that are not saved.");
    if (state.giving)
        say(state, "What is to be given away is still being made; it would be lost.");
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
    const bool has_file = state.sheets.left_path.empty();
    large_words(state, has_file ? "Unsaved changes of an earlier rehearsal were found."
                                : "A group that was never saved was found.");
    say(state, has_file ? "It did not end in order. Take them up again?"
                        : "The rehearsal did not end in order. Take it up again?");
    const bool takes = has_file
                           ? button(state, "Take them up", "As one change, which can be undone.")
                           : button(state, "Take it up", "It goes on where it was.");
    ImGui::SameLine();
    const bool forgets = has_file
                             ? button(state, "Forget them", "The scene stays as its file has it.")
                             : button(state, "Forget it", "It is gone then.");
    if (takes)
        take_left_behind(state);
    else if (forgets)
        forget_left_behind(state);
}

/// What was changed here and, otherwise, in the file: which of both is to be.
void clash_sheet(WindowState& state) {
    SheetState& sheet = state.sheets;
    large_words(state, "The file was changed elsewhere as well.");
    if (sheet.is_either_or) {
        say(state, "The two cannot be brought together, so one of them has to be chosen. "
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
    say(state, "Everything else is brought together. Which of these is to be?");
    const auto one_line = [&](const std::string& words) {
        return cut_to(words, sheet_width(state, text_units) - ImGui::GetFrameHeightWithSpacing());
    };
    for (std::size_t i = 0; i < sheet.clashes.size(); ++i) {
        const rehearsal::Clash& clash = sheet.clashes[i];
        const auto shown = [](const std::string& value) {
            return value.empty() ? std::string{"nothing"} : value;
        };
        ImGui::PushID(static_cast<int>(i));
        say(state, clash.key.c_str());
        if (ImGui::RadioButton(one_line("here: " + shown(clash.here)).c_str(),
                               !sheet.takes_from_file[i]))
            sheet.takes_from_file[i] = false;
        state.widget_rects.note_last("here " + clash.key,
                                     Control::choice(!sheet.takes_from_file[i]));
        if (!clash.in_file.empty() &&
            ImGui::RadioButton(one_line("in the file: " + clash.in_file).c_str(),
                               static_cast<bool>(sheet.takes_from_file[i])))
            sheet.takes_from_file[i] = true;
        state.widget_rects.note_last("in file " + clash.key,
                                     Control::choice(sheet.takes_from_file[i] != 0));
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
    constexpr double width_units = 640;
    large_words(state, state.sitting.scene().title.c_str());
    if (button(state, "To the picture", "Esc does the same."))
        state.sheets.close();
    for (const std::string& reason : state.first_page.reasons)
        say(state, reason.c_str(), width_units);
    ImGui::Spacing();
    ImGui::PushStyleColor(ImGuiCol_Text, state.style.theme.faint_ink);
    say(state,
        "The scene file says the same in its comments. It has no name yet: Ctrl S asks for one.",
        width_units);
    ImGui::PopStyleColor();
    scroll_by_keys();
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
    const bool moves_mark = state.sheets.shown == Sheet::photo_size && state.place.photo->has_keys;
    const bool walks =
        (state.sheets.shown != Sheet::none && !state.sheets.chooser && !moves_mark) ||
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
                        {state.style.units(padding_units), state.style.units(16)});
    ImGui::PushStyleVar(ImGuiStyleVar_WindowBorderSize, 1);
    // What is higher than the window is brought by the wheel.
    const float edge = 2 * state.style.units(edge_units);
    ImGui::SetNextWindowSizeConstraints({0, 0}, {size.x - edge, size.y - edge});
    ImGui::Begin("sheet", nullptr,
                 ImGuiWindowFlags_NoTitleBar | ImGuiWindowFlags_NoResize |
                     ImGuiWindowFlags_NoCollapse | ImGuiWindowFlags_NoMove |
                     ImGuiWindowFlags_AlwaysAutoResize | ImGuiWindowFlags_NoSavedSettings);
    if (!ImGui::IsWindowFocused(ImGuiFocusedFlags_ChildWindows))
        ImGui::SetWindowFocus();
    const std::size_t first = state.widget_rects.count();
    state.widget_rects.ring.open();
    draw_contents(state);
    state.widget_rects.ring.close();
    state.widget_rects.note_part("sheet", first);
    ImGui::End();
    ImGui::PopStyleVar(2);
}

}  // namespace backrow::window
