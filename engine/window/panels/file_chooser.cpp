#include "window/panels/file_chooser.h"

#include "window/panels/panels.h"
#include "window/window_state.h"

#include "rehearsal/files/recent_paths.h"

#include "base/utf8.h"

#include <imgui_stdlib.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <utility>

namespace backrow::window {
namespace {

namespace fs = std::filesystem;

const char* home_folder() {
    return std::getenv("HOME");
}

bool is_pressed(ImGuiKey key) {
    return ImGui::IsKeyPressed(ImGui::GetKeyIndex(key));
}

bool is_enter_pressed() {
    return is_pressed(ImGuiKey_Enter) || is_pressed(ImGuiKey_KeyPadEnter);
}

/// With the folder that a scene lies in, for scenes of one name are common.
std::string name_of(const UsedLast& used) {
    const fs::path path{used.path};
    const fs::path end =
        used.is_folder ? path.filename() / "" : path.parent_path().filename() / path.filename();
    return on_one_line(end.string());
}

void give_keys(FileChooser& chooser, ChooserPart part) {
    chooser.part = part;
    ++chooser.line_number;
    chooser.line_wants_keys = part == ChooserPart::line;
    if (part == ChooserPart::list && !chooser.choice.marked())
        chooser.choice.step(1);
    chooser.shows_marked = true;
}

/// Goes into a folder of those used last, or takes a scene.
std::optional<std::string> take(FileChooser& chooser, const UsedLast& used) {
    if (!used.is_folder)
        return used.path;
    chooser.choice.go_to(used.path);
    give_keys(chooser, ChooserPart::list);
    return std::nullopt;
}

/// Takes what is marked or typed. Keys stay where they were, for it may turn out to be none.
std::optional<std::string> enter(WindowState& state, FileChooser& chooser) {
    auto chosen = chooser.choice.enter();
    state.sheets.complaint = chooser.choice.complaint();
    give_keys(chooser, chooser.part);
    return chosen;
}

void obey_in_list(FileChooser& chooser, int page) {
    rehearsal::FileChoice& choice = chooser.choice;
    const auto step = [&](ImGuiKey key, int entries) {
        if (is_pressed(key)) {
            choice.step(entries);
            chooser.shows_marked = true;
        }
    };
    const auto all = static_cast<int>(choice.list().entries.size());
    step(ImGuiKey_DownArrow, 1);
    step(ImGuiKey_UpArrow, -1);
    step(ImGuiKey_PageDown, page);
    step(ImGuiKey_PageUp, -page);
    step(ImGuiKey_Home, -all);
    step(ImGuiKey_End, all);
    if (is_pressed(ImGuiKey_Backspace)) {
        choice.go_up();
        give_keys(chooser, ChooserPart::list);
    }
    for (const ImWchar letter : ImGui::GetIO().InputQueueCharacters)
        if (letter > ' ') {
            choice.find(letter);
            chooser.shows_marked = true;
        }
}

/// Keys that belong to the list and to what was used last; those of the line are the field's.
std::optional<std::string> obey(WindowState& state, FileChooser& chooser, int page) {
    switch (chooser.part) {
    case ChooserPart::line:
        if (is_pressed(ImGuiKey_DownArrow))
            give_keys(chooser, ChooserPart::list);
        return std::nullopt;
    case ChooserPart::list:
        obey_in_list(chooser, page);
        return is_enter_pressed() ? enter(state, chooser) : std::nullopt;
    case ChooserPart::used_last:
        break;
    default:
        return std::nullopt;  // the buttons hear for themselves
    }
    if (is_pressed(ImGuiKey_DownArrow))
        chooser.used_marked = std::min(chooser.used_marked + 1, chooser.used_last.size() - 1);
    if (is_pressed(ImGuiKey_UpArrow) && chooser.used_marked > 0)
        --chooser.used_marked;
    return is_enter_pressed() ? take(chooser, chooser.used_last[chooser.used_marked])
                              : std::nullopt;
}

/// A line of a list, with what the pointer asks of it.
struct Pointed {
    bool is_clicked = false;
    bool is_entered = false;  ///< Clicked twice.
};
Pointed draw_entry(WindowState& state, const std::string& name, bool is_folder, bool is_marked,
                   bool has_keys, const std::string& note) {
    const Theme& theme = state.style.theme;
    const ImVec2 at = ImGui::GetCursorScreenPos();
    Pointed pointed;
    pointed.is_clicked =
        ImGui::Selectable("##entry", is_marked, ImGuiSelectableFlags_AllowDoubleClick);
    pointed.is_entered = pointed.is_clicked && ImGui::IsMouseDoubleClicked(ImGuiMouseButton_Left);
    state.widget_rects.note_last(note);
    const ImVec2 least = ImGui::GetItemRectMin(), most = ImGui::GetItemRectMax();
    ImDrawList& on = *ImGui::GetWindowDrawList();
    if (is_marked && has_keys)
        on.AddRect(least, most, theme.accent, 0, 0, state.style.units(1.5));
    const float left = at.x + state.style.units(4);
    on.AddText({left, at.y}, is_folder ? theme.accent : theme.ink,
               cut_to(name, most.x - left).c_str());
    return pointed;
}

/// returns  what end_box() asks for
std::size_t begin_box(const WindowState& state, const char* name, const ImVec2& size) {
    ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, {state.style.units(6), state.style.units(5)});
    ImGui::BeginChild(name, size, true);
    ImGui::PopStyleVar();
    return state.widget_rects.count();
}

void end_box(WindowState& state, const char* name, std::size_t first) {
    state.widget_rects.note_part(name, first);
    ImGui::EndChild();
}

std::optional<std::string> draw_list(WindowState& state, FileChooser& chooser, ImVec2 size) {
    rehearsal::FileChoice& choice = chooser.choice;
    std::optional<std::string> chosen;
    const std::size_t first = begin_box(state, "list", size);
    const auto& entries = choice.list().entries;
    if (entries.empty() && choice.list().complaint.empty())
        ImGui::TextDisabled("%s", choice.of() == rehearsal::ChoiceOf::folder
                                      ? "There is no folder in this one."
                                      : "There is nothing of this kind in this folder.");
    if (!choice.list().complaint.empty()) {
        ImGui::PushTextWrapPos(0);
        ImGui::TextUnformatted(choice.list().complaint.c_str());
        ImGui::PopTextWrapPos();
    }
    const float line = ImGui::GetTextLineHeightWithSpacing();
    if (std::exchange(chooser.shows_marked, false) && choice.marked()) {
        const float top = static_cast<float>(*choice.marked()) * line;
        if (top < ImGui::GetScrollY() || top + 2 * line > ImGui::GetScrollY() + size.y)
            ImGui::SetScrollY(top - size.y / 2);
    }
    std::optional<std::size_t> clicked;
    bool is_entered = false;
    ImGuiListClipper clipper;
    clipper.Begin(static_cast<int>(entries.size()), line);
    while (clipper.Step())
        for (int i = clipper.DisplayStart; i < clipper.DisplayEnd; ++i) {
            const auto entry = static_cast<std::size_t>(i);
            std::string name = on_one_line(entries[entry].name);
            if (entries[entry].is_folder)
                name += '/';
            chooser.letters += name;
            ImGui::PushID(i);
            const Pointed pointed =
                draw_entry(state, name, entries[entry].is_folder, choice.marked() == entry,
                           chooser.part == ChooserPart::list, "entry " + name);
            ImGui::PopID();
            if (pointed.is_clicked)
                clicked = entry;
            is_entered |= pointed.is_entered;
        }
    clipper.End();
    if (chooser.part == ChooserPart::list)
        state.widget_rects.note_keys("list");
    if (clicked) {
        choice.mark(*clicked);
        state.sheets.complaint.clear();
        give_keys(chooser, ChooserPart::list);
        chooser.shows_marked = false;
        if (is_entered)
            chosen = enter(state, chooser);
    }
    end_box(state, "list", first);
    return chosen;
}

std::optional<std::string> draw_used_last(WindowState& state, FileChooser& chooser, ImVec2 size) {
    std::optional<std::string> chosen;
    const std::size_t first = begin_box(state, "used last", size);
    ImGui::TextDisabled("Used last");
    std::optional<std::size_t> entered;
    for (std::size_t i = 0; i < chooser.used_last.size(); ++i) {
        const UsedLast& used = chooser.used_last[i];
        const std::string name = name_of(used);
        chooser.letters += name;
        ImGui::PushID(static_cast<int>(i));
        const bool has_keys = chooser.part == ChooserPart::used_last;
        const Pointed pointed =
            draw_entry(state, name, used.is_folder, has_keys && chooser.used_marked == i, has_keys,
                       "used " + name);
        teach(state, used.path.c_str());
        ImGui::PopID();
        if (pointed.is_clicked) {
            chooser.used_marked = i;
            entered = i;
        }
    }
    if (chooser.part == ChooserPart::used_last)
        state.widget_rects.note_keys("used last");
    if (entered)
        chosen = take(chooser, chooser.used_last[*entered]);
    end_box(state, "used last", first);
    return chosen;
}

/// A button of the sheet, pressed by the pointer, or by Space or Enter while it has the keys.
bool draw_button(WindowState& state, const FileChooser& chooser, ChooserPart part,
                 const char* label, const char* lesson) {
    const bool is_clicked = button(state, label, lesson);
    if (chooser.part != part)
        return is_clicked;
    ImGui::GetWindowDrawList()->AddRect(ImGui::GetItemRectMin(), ImGui::GetItemRectMax(),
                                        state.style.theme.accent, ImGui::GetStyle().FrameRounding,
                                        0, state.style.units(1.5));
    state.widget_rects.note_keys(std::string{"button "} + label);
    return is_clicked || is_pressed(ImGuiKey_Space) || is_enter_pressed();
}

/// The folder, its end at least, behind the ways out of it.
void draw_ways_out(WindowState& state, FileChooser& chooser, float width) {
    if (draw_button(state, chooser, ChooserPart::up, "Up",
                    "To the folder round this one. In the list, Backspace does the same.")) {
        chooser.choice.go_up();
        give_keys(chooser, ChooserPart::list);
    }
    ImGui::SameLine();
    if (const char* home = home_folder();
        home != nullptr &&
        draw_button(state, chooser, ChooserPart::home, "Home", "To your own folder.")) {
        chooser.choice.go_to(home);
        give_keys(chooser, ChooserPart::list);
    }
    ImGui::SameLine();
    chooser.letters += chooser.choice.list().folder;
    end_of_path(state, chooser.choice.list().folder,
                width - ImGui::GetCursorPosX() + ImGui::GetStyle().WindowPadding.x);
}

std::optional<std::string> draw_line(WindowState& state, FileChooser& chooser, float width) {
    ImGui::SetNextItemWidth(width);
    if (std::exchange(chooser.line_wants_keys, false)) {
        state.field_opens = true;
        ImGui::SetKeyboardFocusHere();
    }
    ImGui::PushAllowKeyboardFocus(false);  // Tab goes through the parts, not through the fields.
    ImGui::PushID(chooser.line_number);
    std::string typed = chooser.choice.typed();
    const bool is_entered = ImGui::InputText(
        "##path", &typed, ImGuiInputTextFlags_EnterReturnsTrue | ImGuiInputTextFlags_AutoSelectAll);
    ImGui::PopID();
    ImGui::PopAllowKeyboardFocus();
    state.widget_rects.note_last("path", Control::field(typed));
    chooser.letters += typed;
    if (ImGui::IsItemClicked())
        chooser.part = ChooserPart::line;
    if (typed != chooser.choice.typed()) {
        chooser.choice.type(std::move(typed));
        state.sheets.complaint.clear();
    }
    return is_entered ? enter(state, chooser) : std::nullopt;
}

}  // namespace

FileChooser file_chooser(rehearsal::ChoiceOf of, std::vector<std::string> endings,
                         const std::string& start, bool has_scenes) {
    FileChooser chooser{.choice = {of, std::move(endings), start}};
    if (has_scenes)
        for (std::string& path : rehearsal::recent_paths(rehearsal::Recent::scenes))
            chooser.used_last.push_back({.path = std::move(path)});
    for (std::string& path : rehearsal::recent_paths(rehearsal::Recent::folders))
        chooser.used_last.push_back({.path = std::move(path), .is_folder = true});
    return chooser;
}

void go_round(FileChooser& chooser, int way) {
    const auto is_there = [&](ChooserPart part) {
        return (part != ChooserPart::used_last || !chooser.used_last.empty()) &&
               (part != ChooserPart::home || home_folder() != nullptr);
    };
    auto part = static_cast<std::size_t>(chooser.part);
    do
        part = (part + (way > 0 ? 1 : chooser_parts - 1)) % chooser_parts;
    while (!is_there(static_cast<ChooserPart>(part)));
    give_keys(chooser, static_cast<ChooserPart>(part));
}

std::optional<std::string> draw_file_chooser(WindowState& state, FileChooser& chooser,
                                             const ChooserWords& words, ChooserEnd& end) {
    const Style& style = state.style;
    const ImVec2 display = ImGui::GetIO().DisplaySize;
    const float width = std::min(style.units(640), display.x - style.units(60));
    const float height =
        std::clamp(display.y - style.units(230), 3 * ImGui::GetFrameHeight(), style.units(300));
    const float gap = ImGui::GetStyle().ItemSpacing.x;
    const float used_width = chooser.used_last.empty() ? 0 : std::round(width * 0.32f);
    chooser.letters.clear();
    chooser.choice.refresh();

    ImGui::PushFont(style.fonts.large);
    ImGui::TextUnformatted(words.title);
    ImGui::PopFont();
    // Before the buttons: the Enter that presses one of them gives the keys to the list.
    auto chosen = obey(state, chooser, static_cast<int>(height / ImGui::GetTextLineHeight()) - 2);
    draw_ways_out(state, chooser, width);
    const auto or_else = [&chosen](std::optional<std::string> other) {
        if (other)
            chosen = std::move(other);
    };
    or_else(
        draw_list(state, chooser, {width - used_width - (used_width > 0 ? gap : 0.0f), height}));
    if (used_width > 0) {
        ImGui::SameLine();
        or_else(draw_used_last(state, chooser, {used_width, height}));
    }
    or_else(draw_line(state, chooser, width));
    if (!state.sheets.complaint.empty()) {
        ImGui::PushTextWrapPos(ImGui::GetCursorPosX() + width);
        ImGui::TextColored(ImGui::ColorConvertU32ToFloat4(style.theme.accent), "%s",
                           state.sheets.complaint.c_str());
        ImGui::PopTextWrapPos();
    }
    if (draw_button(state, chooser, ChooserPart::take,
                    chooser.choice.asks_to_replace() ? "Replace it" : words.verb,
                    "Enter does the same."))
        or_else(enter(state, chooser));
    ImGui::SameLine();
    if (draw_button(state, chooser, ChooserPart::cancel, "Cancel", "Esc does the same."))
        end = ChooserEnd::cancelled;
    if (chosen)
        rehearsal::note_recent(rehearsal::Recent::folders,
                               chooser.choice.of() == rehearsal::ChoiceOf::folder
                                   ? *chosen
                                   : fs::path{*chosen}.parent_path().string());
    return chosen;
}

}  // namespace backrow::window
