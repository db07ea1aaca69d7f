#include "window/drawings/views.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace backrow::window {
namespace {

std::string margin_words(const plan::Margin& margin) {
    if (margin.front_m == 0 && margin.back_m == 0)
        return "no margin";
    const std::string back =
        std::isinf(margin.back_m) ? "∞" : fmt::format("{:.0f}", margin.back_m * 100);
    return fmt::format("margin {:.0f}/{} cm", margin.front_m * 100, back);
}

}  // namespace

void draw_faces(WindowState& state, const Area& area) {
    const rehearsal::Facts& facts = state.shown_facts();
    const std::map<std::size_t, Hung>& faces = state.flips ? state.kept_faces : state.faces;
    const auto line = ImGui::GetTextLineHeight();
    const float words = 3.2f * line;
    const float gap = static_cast<float>(8 * state.scale);
    const float height = std::max(40.0f, area.height() - words - 1.2f * gap);
    const float width = std::round(height * 1.3f);
    state.face_width = static_cast<int>(width * state.texels_per_unit);
    state.face_height = static_cast<int>(height * state.texels_per_unit);

    ImGui::SetCursorScreenPos(area.least);
    ImGui::BeginChild("faces", {area.width(), area.height()}, false,
                      ImGuiWindowFlags_HorizontalScrollbar | ImGuiWindowFlags_NoScrollWithMouse);
    if (ImGui::IsWindowHovered() && ImGui::GetIO().MouseWheel != 0)
        ImGui::SetScrollX(ImGui::GetScrollX() - ImGui::GetIO().MouseWheel * width);
    ImDrawList& on = *ImGui::GetWindowDrawList();
    const ImVec2 origin = ImGui::GetCursorScreenPos();
    float left = origin.x;
    for (const std::size_t i : facts.worst_first) {
        const plan::Face& face = facts.table.faces[i];
        const ImVec2 least{left, origin.y};
        const ImVec2 most{left + width, origin.y + height};
        ImGui::SetCursorScreenPos(least);
        ImGui::PushID(static_cast<int>(i));
        if (ImGui::InvisibleButton("face", {width, height + words}))
            state.sitting.choose(i);
        ImGui::PopID();
        const bool hovered = ImGui::IsItemHovered();
        if (hovered && ImGui::IsMouseDoubleClicked(ImGuiMouseButton_Left))
            state.make(rehearsal::focus_on(state.sitting.scene(), i));
        state.widget_rects.note("tile " + face.name, least, most);
        teach(state, "This face as the camera records it, pixel for pixel. Click to choose, "
                     "double-click to focus on the nearer eye.");

        on.AddRectFilled(least, most, IM_COL32(52, 54, 58, 255));
        const auto hung = faces.find(i);
        const bool is_hung = hung != faces.end() && !hung->second.picture.empty();
        if (is_hung)
            on.AddImage(hung->second.picture.id(), least, most);
        // What is shown is of a moment ago: said by a veil, until the new one is there.
        if (is_hung && !state.flips && hung->second.print.edition != state.sitting.edition())
            on.AddRectFilled(least, most, with_alpha(state.theme.desk, 70));
        const bool is_chosen = state.sitting.chosen() == i;
        if (is_chosen && state.scroll_to_chosen)
            ImGui::SetScrollFromPosX(left - origin.x + width / 2 - ImGui::GetScrollX(), 0.5f);
        if (is_chosen || hovered)
            on.AddRect(least, most, is_chosen ? state.theme.accent : state.theme.rule, 0, 0,
                       static_cast<float>(2 * state.scale));

        const float y = most.y + 0.25f * line;
        draw_grade(on, {left, y}, face.grade, 0.95 * state.scale);
        const float after_mark = left + static_cast<float>(27 * state.scale);
        on.PushClipRect({left, y}, {most.x, origin.y + height + words}, true);
        on.AddText(state.fonts.bold, state.fonts.bold->FontSize, {after_mark, y}, state.theme.ink,
                   face.name.c_str());
        const float after_name = after_mark + ImGui::CalcTextSize(face.name.c_str()).x * 1.12f;
        on.AddText(state.fonts.small, state.fonts.small->FontSize, {after_name + 6, y + 2},
                   state.theme.ink, optics::to_word(face.grade));
        const auto measured = state.measures.find(i);
        const bool is_measured = !state.flips && measured != state.measures.end() &&
                                 measured->second.edition == state.sitting.edition() &&
                                 measured->second.blur_px;
        const std::string predicted = short_number(face.predicted_blur_px) + " px";
        const std::string blur =
            !face.in_frame ? predicted + ", outside the frame"
            : is_measured  ? predicted + ", measured " + short_number(*measured->second.blur_px)
                           : predicted;
        on.AddText(state.fonts.small, state.fonts.small->FontSize, {left, y + 1.15f * line},
                   state.theme.ink, blur.c_str());
        on.AddText(state.fonts.small, state.fonts.small->FontSize, {left, y + 2.1f * line},
                   state.theme.faint_ink, margin_words(face.margin).c_str());
        on.PopClipRect();
        left = most.x + gap;
    }
    state.scroll_to_chosen = false;
    ImGui::SetCursorScreenPos({left, origin.y});
    ImGui::Dummy({1, 1});
    ImGui::EndChild();
}

}  // namespace backrow::window
