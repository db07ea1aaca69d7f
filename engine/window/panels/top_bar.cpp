#include "window/commands/commands.h"
#include "window/face_words.h"
#include "window/panels/panels.h"

#include "report/text/lens_words.h"
#include "report/text/trouble_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cfloat>
#include <cmath>
#include <optional>
#include <string>
#include <vector>

namespace backrow::window {
namespace {

/// A button of the bar, faint where there is nothing to do.
struct BarButton {
    const char* label;
    bool is_possible;
    std::string lesson;
    void (*command)(WindowState&);
};

template <Part part>
void show_part(WindowState& state) {
    state.enlarged = part;
}

std::vector<BarButton> bar_buttons(const WindowState& state, const ImVec2& size) {
    const rehearsal::EditedScene& edited = state.sitting.edited();
    const Units units = state.style.lengths;
    std::vector<BarButton> buttons{
        {"Undo", edited.can_undo(),
         edited.can_undo() ? "Take back: " + edited.undone_next(units) + " (Ctrl Z)"
                           : "Nothing to take back.",
         undo},
        {"Redo", edited.can_redo(),
         edited.can_redo() ? "Do again: " + edited.redone_next(units) + " (Ctrl Y)"
                           : "Nothing to do again.",
         redo},
        {"Save", edited.has_unsaved_changes(),
         "Into the scene's file; its comments and their order stay (Ctrl S).", save},
        {"Open", true, "Another scene (Ctrl O).",
         [](WindowState& s) { show_file_sheet(s, Sheet::open); }},
        {"Give away", true,
         "Picture, faces, strip, chart and tables, made in the background (Ctrl P).",
         show_give_away_sheet},
        {"Keep", true,
         "Keep this state, try something else, and hold Space to see the difference (K).",
         keep_state},
        {state.look.is_full_size ? "Whole picture" : "100 %", true,
         "One pixel of the camera is one of the screen: the only way to judge a face (V).",
         show_at_full_size},
        {state.style.theme.is_dark ? "Day" : "Night", true, "Light or dark surroundings (F9).",
         change_light},
        {"Keys", true, "Everything by keyboard (F1).",
         [](WindowState& s) { s.sheets.show(Sheet::keys); }}};
    if (!has_room_for_all(size, state.style.scale)) {
        // There is room for few parts at once: which one.
        const std::string lesson = "One part at a time, where there is no room for all.";
        buttons.push_back({"Picture", true, lesson, show_part<Part::picture>});
        buttons.push_back({"Faces", true, lesson, show_part<Part::faces>});
        buttons.push_back({"Above", true, lesson, show_part<Part::above>});
        buttons.push_back({"Side", true, lesson, show_part<Part::side>});
        buttons.push_back({"Panel", true, lesson, show_part<Part::panel>});
    }
    return buttons;
}

/// Calls place(button, x, line) for each of them, as they go from left to right and on the next
/// line.
///
/// returns  how many lines there are, and where the last one ends
struct Flow {
    int lines = 1;
    float end = 0;
};
template <typename Place>
Flow flow(const std::vector<BarButton>& buttons, float width, const Place& place) {
    const float gap = ImGui::GetStyle().ItemSpacing.x;
    Flow flow;
    for (const BarButton& button : buttons) {
        const float wide = button_width(button.label);
        if (flow.end > 0 && flow.end + wide > width) {
            ++flow.lines;
            flow.end = 0;
        }
        place(button, flow.end, flow.lines - 1);
        flow.end += wide + gap;
    }
    return flow;
}

float bar_line_height(const Style& style) {
    return ImGui::GetFrameHeight() + style.units(6);
}

/// Takes what the buttons leave, from the right.
void draw_scene_title(const WindowState& state, const Area& area, float buttons_end) {
    const Style& style = state.style;
    const bool is_unsaved = state.sitting.edited().has_unsaved_changes();
    const float room = area.most.x - buttons_end - style.units(20);
    if (room < style.units(120))
        return;
    ImFont& font = *style.fonts.bold;
    const float unsaved = is_unsaved ? style.units(90) : 0.0f;
    ImGui::PushFont(&font);
    const std::string title = cut_to(state.sitting.scene().title, room - unsaved);
    const float left = area.most.x - ImGui::CalcTextSize(title.c_str()).x - unsaved;
    ImGui::PopFont();
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
    if (!state.failure.empty())
        return {"Nothing was given away: Ctrl P says why (Esc takes note of it).", true};
    if (!state.sitting.complaint().empty())
        return {state.sitting.complaint(), true};
    if (state.changed_on_disk)
        return {
            "The file was changed elsewhere: saving brings both together, Ctrl R does so at once.",
            true};
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
    const std::string trusted = report::perfect_lens_words(state.sitting.scene());
    return {fmt::format("Least sharp: {}, {}{}", worst.name, blur_words(worst),
                        trusted.empty() ? "" : "; " + trusted)};
}

std::string work_words(const WindowState& state) {
    std::string work;
    if (state.giving)
        work = fmt::format("giving away: {}, {:.0f} % (Esc stops it)   ", state.giving->words(),
                           state.giving->share() * 100);
    if (state.pictures.work == Work::lighting)
        return work + fmt::format("light and shadow {:.0f} %", state.pictures.share * 100);
    if (const int points = state.pictures.picture.print.samples; points > 0)
        work += fmt::format("{} point{} of the lens{}", points, points == 1 ? "" : "s",
                            state.pictures.work == Work::exposing ? "" : ", done");
    return work;
}

}  // namespace

float top_bar_height(const WindowState& state, float width) {
    const std::vector<BarButton> buttons = bar_buttons(state, ImGui::GetIO().DisplaySize);
    const Flow lines = flow(buttons, width - 2 * state.style.units(6), [](auto&&...) {});
    return std::ceil(state.style.units(4) +
                     static_cast<float>(lines.lines) * bar_line_height(state.style));
}

void draw_top_bar(WindowState& state, const Area& area) {
    const std::vector<BarButton> buttons = bar_buttons(state, ImGui::GetIO().DisplaySize);
    void (*pressed)(WindowState&) = nullptr;
    const Flow lines = flow(buttons, area.width(), [&](const BarButton& button, float x, int line) {
        ImGui::SetCursorScreenPos(
            {area.least.x + x, area.least.y + state.style.units(4) +
                                   static_cast<float>(line) * bar_line_height(state.style)});
        if (!button.is_possible)
            ImGui::PushStyleVar(ImGuiStyleVar_Alpha, 0.45f);
        if (ImGui::Button(button.label) && button.is_possible)
            pressed = button.command;
        if (!button.is_possible)
            ImGui::PopStyleVar();
        state.widget_rects.note_last(std::string{"button "} + button.label,
                                     {.is_disabled = !button.is_possible});
        teach(state, button.lesson.c_str());
    });
    if (lines.lines == 1)
        draw_scene_title(state, area, area.least.x + lines.end);
    if (pressed != nullptr)
        pressed(state);
}

void draw_enlarger(WindowState& state, Part part, const Area& area) {
    if (!has_room_for_all(ImGui::GetIO().DisplaySize, state.style.scale))
        return;
    const float side = state.style.units(20);
    // A window of its own lies over whatever else takes the pointer there.
    ImGui::SetCursorScreenPos(
        {area.most.x - side - state.style.units(2), area.least.y + state.style.units(2)});
    ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, {0, 0});
    ImGui::BeginChild(to_word(part), {side, side}, false, ImGuiWindowFlags_NoScrollbar);
    ImGui::PopStyleVar();
    const bool is_enlarged = state.enlarged == part;
    if (ImGui::InvisibleButton("enlarge", {side, side}))
        state.enlarged = is_enlarged ? std::nullopt : std::optional{part};
    state.widget_rects.note_last(std::string{"enlarge "} + to_word(part));
    const bool is_hovered = ImGui::IsItemHovered();
    teach(state, is_enlarged ? "Back among the others (Esc)."
                             : "This part as large as the window (Ctrl and its number).");
    ImDrawList& on = *ImGui::GetWindowDrawList();
    const ImVec2 least = ImGui::GetItemRectMin();
    const Theme& theme = state.style.theme;
    const auto at = [&](double x, double y) {
        return ImVec2{least.x + state.style.units(x), least.y + state.style.units(y)};
    };
    on.AddRectFilled(at(1, 1), at(19, 19), with_alpha(theme.paper, is_hovered ? 255 : 170),
                     state.style.units(3));
    // A small sheet within a large one, and the other way round.
    const ImU32 ink = is_hovered ? theme.accent : theme.faint_ink;
    on.AddRect(at(4, 5), at(16, 15), ink, 0, 0, state.style.units(1.2));
    if (is_enlarged)
        on.AddRectFilled(at(6, 9), at(11, 13), ink);
    else
        on.AddRectFilled(at(6, 7), at(14, 13), with_alpha(ink, 130));
    ImGui::EndChild();
}

namespace {

float foot_room(const WindowState& state, float width) {
    const ImFont& font = *state.style.fonts.small;
    const std::string work = work_words(state);
    return width - font.CalcTextSizeA(font.FontSize, FLT_MAX, 0, work.c_str()).x -
           state.style.units(24);
}

}  // namespace

float foot_height(const WindowState& state, float width) {
    const ImFont& font = *state.style.fonts.small;
    const float words = font.CalcTextSizeA(font.FontSize, FLT_MAX, foot_room(state, width),
                                           foot_line(state).words.c_str())
                            .y;
    return std::ceil(std::max(state.style.units(16), words) + state.style.units(4));
}

void draw_foot(WindowState& state, const Area& area) {
    ImDrawList& on = *ImGui::GetWindowDrawList();
    const Theme& theme = state.style.theme;
    ImFont& font = *state.style.fonts.small;
    const FootLine line = foot_line(state);
    on.AddText(&font, font.FontSize, area.least, line.is_urgent ? theme.accent : theme.faint_ink,
               line.words.c_str(), nullptr, foot_room(state, area.width()));
    const std::string work = work_words(state);
    const float width = font.CalcTextSizeA(font.FontSize, FLT_MAX, 0, work.c_str()).x;
    on.AddText(&font, font.FontSize, {area.most.x - width, area.least.y}, theme.faint_ink,
               work.c_str());
}

}  // namespace backrow::window
