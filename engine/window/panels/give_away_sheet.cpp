// What goes out of the scene: a tick, a name and a folder for each, and how the picture is wanted.

#include "window/commands/commands.h"
#include "window/panels/file_chooser.h"
#include "window/panels/panels.h"

#include "delivery/outputs.h"

#include "base/utf8.h"

#include <fmt/format.h>
#include <imgui_stdlib.h>

#include <algorithm>
#include <cstddef>
#include <filesystem>
#include <string>

namespace backrow::window {
namespace {

/// How the sheet is divided.
struct Columns {
    float width = 0;
    float names = 0;  ///< Where fields begin.
    float field = 0;
};

Columns columns_of(const Style& style) {
    const float width = std::min(style.units(620), ImGui::GetIO().DisplaySize.x - style.units(60));
    const float names = std::min(style.units(268), width * 0.5f);
    return {.width = width,
            .names = names,
            .field = std::min(style.units(230), width - names - style.units(70))};
}

/// Whatever is changed, nobody has agreed to replace what it leads to.
void changed(WindowState& state) {
    state.sheets.give_away->to_replace.clear();
    state.sheets.complaint.clear();
}

void label(const char* words, float column) {
    ImGui::AlignTextToFramePadding();
    ImGui::TextUnformatted(words);
    ImGui::SameLine(ImGui::GetStyle().WindowPadding.x + column);
}

void draw_place(WindowState& state, const Columns& columns) {
    delivery::Choices& choices = state.sheets.give_away->choices;
    label("Folder", std::min(state.style.units(98), columns.names));
    if (button(state, "Other folder", "Where all of it goes.")) {
        state.sheets.chooser = file_chooser(rehearsal::ChoiceOf::folder, {}, choices.folder, false);
        state.sheets.complaint.clear();
    }
    ImGui::SameLine();
    end_of_path(state, choices.folder,
                columns.width - ImGui::GetCursorPosX() + ImGui::GetStyle().WindowPadding.x);

    label("Names begin with", columns.names);
    ImGui::SetNextItemWidth(columns.field);
    if (ImGui::InputText("##stem", &choices.stem))
        changed(state);
    state.widget_rects.note_last("stem", Control::field(choices.stem));
    teach(state, "The beginning of every name: the scene's, unless you say otherwise.");
}

bool choose(WindowState& state, const char* words, bool is_chosen) {
    const bool pressed = ImGui::RadioButton(words, is_chosen) && !is_chosen;
    state.widget_rects.note_last(std::string{"choice "} + words, Control::choice(is_chosen));
    if (pressed)
        changed(state);
    return pressed;
}

void draw_picture_choices(WindowState& state, const Columns& columns) {
    delivery::Choices& choices = state.sheets.give_away->choices;
    const float left = state.style.units(30);
    ImGui::SetCursorPosX(left);
    if (choose(state, "JPEG", choices.format == delivery::PictureFormat::jpeg))
        choices.format = delivery::PictureFormat::jpeg;
    ImGui::SameLine();
    if (choose(state, "PNG", choices.format == delivery::PictureFormat::png))
        choices.format = delivery::PictureFormat::png;
    if (choices.format == delivery::PictureFormat::jpeg) {
        ImGui::SameLine(columns.names);
        ImGui::SetNextItemWidth(columns.field);
        ImGui::SliderInt("##quality", &choices.jpeg_quality, 1, 100, "quality %d",
                         ImGuiSliderFlags_AlwaysClamp);
        state.widget_rects.note_last("quality");
        teach(state, "Above 90 colours keep their full detail.");
    }
    const scene::CameraView& view = state.sitting.facts().view;
    ImGui::SetCursorPosX(left);
    if (choose(state, "For a screen", choices.size == delivery::PictureSize::screen))
        choices.size = delivery::PictureSize::screen;
    ImGui::SameLine();
    if (choose(state, "As the camera", choices.size == delivery::PictureSize::camera))
        choices.size = delivery::PictureSize::camera;
    // On a narrow sheet a line of its own.
    if (ImGui::GetItemRectMax().x - ImGui::GetWindowPos().x < columns.names)
        ImGui::SameLine(columns.names);
    else
        ImGui::SetCursorPosX(left);
    if (choose(state, "So wide:", choices.size == delivery::PictureSize::own))
        choices.size = delivery::PictureSize::own;
    ImGui::SameLine();
    const int width_px = picture_width_px(choices, view);
    if (choices.size == delivery::PictureSize::own) {
        ImGui::SetNextItemWidth(state.style.units(80));
        if (ImGui::InputInt("##width", &choices.own_width_px, 0, 0))
            changed(state);
        if (!ImGui::IsItemActive())
            choices.own_width_px =
                std::clamp(choices.own_width_px, delivery::least_picture_width_px, view.width_px);
        state.widget_rects.note_last("width");
        ImGui::SameLine();
    }
    ImGui::AlignTextToFramePadding();
    ImGui::TextDisabled("%s", choices.size == delivery::PictureSize::own
                                  ? fmt::format("of {} px", view.width_px).c_str()
                                  : fmt::format("{} px", width_px).c_str());
    ImGui::SetCursorPosX(left);
    if (ImGui::Checkbox("Names under it, row by row from the left", &choices.with_captions))
        changed(state);
    state.widget_rects.note_last("captions", Control::tick(choices.with_captions));
}

void draw_piece(WindowState& state, const Columns& columns, std::size_t i) {
    delivery::Choices& choices = state.sheets.give_away->choices;
    delivery::Piece& piece = choices.pieces[i];
    const delivery::Output& output = delivery::outputs()[i];
    ImGui::PushID(static_cast<int>(i));
    if (ImGui::Checkbox(output.words, &piece.is_wanted))
        changed(state);
    state.widget_rects.note_last(std::string{"tick "} + output.key, Control::tick(piece.is_wanted));
    teach(state, output.lesson);
    if (piece.is_wanted) {
        ImGui::SameLine(columns.names);
        ImGui::SetNextItemWidth(columns.field);
        if (ImGui::InputText("##tail", &piece.tail))
            changed(state);
        state.widget_rects.note_last(std::string{"name "} + output.key, Control::field(piece.tail));
        teach(state, file_name(choices, i).c_str());
        ImGui::SameLine();
        ImGui::AlignTextToFramePadding();
        ImGui::TextDisabled("%s", output.ending(choices));
    }
    ImGui::PopID();
}

/// How high all lines are: what does not fit is brought by the wheel.
float height_of_lines(const delivery::Choices& choices) {
    const auto lines = static_cast<float>(choices.pieces.size() +
                                          (delivery::is_wanted(choices, "picture") ? 3 : 0));
    return lines * ImGui::GetFrameHeightWithSpacing();
}

/// What is wrong or to be asked, above the buttons.
void draw_say(WindowState& state, const Columns& columns) {
    const GiveAwayForm& form = *state.sheets.give_away;
    std::string words =
        state.failure.empty() ? state.sheets.complaint : "Nothing was given away: " + state.failure;
    if (words.empty() && !form.to_replace.empty()) {
        const std::string first =
            on_one_line(std::filesystem::path{form.to_replace.front()}.filename().string());
        words = form.to_replace.size() == 1
                    ? first + " is there already."
                    : fmt::format("{} of these files are there already, {} among them.",
                                  form.to_replace.size(), first);
    }
    if (words.empty())
        return;
    ImGui::PushTextWrapPos(ImGui::GetCursorPosX() + columns.width);
    ImGui::TextColored(ImGui::ColorConvertU32ToFloat4(state.style.theme.accent), "%s",
                       words.c_str());
    ImGui::PopTextWrapPos();
}

void draw_deeds(WindowState& state, const Columns& columns) {
    if (state.giving) {
        ImGui::ProgressBar(
            static_cast<float>(state.giving->share()), {columns.width, 0},
            fmt::format("{}  {:.0f} %", state.giving->words(), state.giving->share() * 100)
                .c_str());
        state.widget_rects.note_last("progress");
        if (button(state, "Stop", "Then nothing is written."))
            state.giving->stop();
        ImGui::SameLine();
        if (button(state, "Go on rehearsing",
                   "It is made meanwhile; the line at the foot says how "
                   "far it is. Esc does the same."))
            state.sheets.close();
        return;
    }
    GiveAwayForm& form = *state.sheets.give_away;
    if (!state.failure.empty()) {
        if (button(state, "Taken note", "The line at the foot says so until then."))
            state.failure.clear();
        ImGui::SameLine();
    }
    if (!form.to_replace.empty()) {
        if (button(state, "Replace", "What stands there is gone then."))
            give_away(state);
        ImGui::SameLine();
        if (button(state, "Leave them be", "To choose other names."))
            form.to_replace.clear();
        return;
    }
    if (button(state, "Give away now", "Makes all that is ticked; the rehearsal can go on."))
        give_away(state);
    ImGui::SameLine();
    if (button(state, "Close", "Esc does the same."))
        state.sheets.close();
}

void choose_folder(WindowState& state) {
    ChooserEnd end = ChooserEnd::goes_on;
    const auto chosen = draw_file_chooser(state, *state.sheets.chooser,
                                          {"Where all of it goes", "This folder"}, end);
    if (chosen) {
        state.sheets.give_away->choices.folder = *chosen;
        changed(state);
    }
    if (chosen || end == ChooserEnd::cancelled)
        state.sheets.step_back();
}

}  // namespace

void draw_give_away_sheet(WindowState& state) {
    if (state.sheets.chooser)
        return choose_folder(state);
    const Columns columns = columns_of(state.style);
    ImGui::PushFont(state.style.fonts.large);
    ImGui::TextUnformatted("Give away");
    ImGui::PopFont();
    draw_place(state, columns);
    const float room = ImGui::GetIO().DisplaySize.y - ImGui::GetCursorPosY() -
                       3.2f * ImGui::GetFrameHeightWithSpacing() - state.style.units(40);
    const float height = std::clamp(room, 2 * ImGui::GetFrameHeight(),
                                    height_of_lines(state.sheets.give_away->choices));
    ImGui::BeginChild("pieces", {columns.width, height}, false, ImGuiWindowFlags_NavFlattened);
    const std::size_t first = state.widget_rects.count();
    for (std::size_t i = 0; i < delivery::outputs().size(); ++i) {
        draw_piece(state, columns, i);
        if (i == 0 && state.sheets.give_away->choices.pieces[i].is_wanted)
            draw_picture_choices(state, columns);
    }
    state.widget_rects.note_part("pieces", first);
    ImGui::EndChild();
    draw_say(state, columns);
    draw_deeds(state, columns);
}

}  // namespace backrow::window
