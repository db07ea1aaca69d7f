#include "window/drawings/drawing_part.h"

#include "window/drawings/views.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace backrow::window {

rehearsal::ScreenArea screen_area(const Area& area) {
    return {.left = area.least.x,
            .top = area.least.y,
            .width = std::max(1.0f, area.width()),
            .height = std::max(1.0f, area.height())};
}

bool zoom_and_pan(rehearsal::DrawingScale& scale, bool& is_fitted, bool hovered, bool may_zoom) {
    if (!hovered)
        return false;
    const ImGuiIO& io = ImGui::GetIO();
    if (io.MouseWheel != 0 && may_zoom) {
        scale = zoomed(scale, {io.MousePos.x, io.MousePos.y}, std::pow(1.2, io.MouseWheel));
        is_fitted = false;
    }
    if (ImGui::IsMouseDragging(ImGuiMouseButton_Right, 1)) {
        scale = panned(scale, io.MouseDelta.x, io.MouseDelta.y);
        is_fitted = false;
        return true;
    }
    if (ImGui::IsMouseDoubleClicked(ImGuiMouseButton_Left))
        is_fitted = true;
    return false;
}

void draw_dashes(ImDrawList& on, const ImVec2& from, const ImVec2& to, ImU32 colour, float width,
                 float dash) {
    const float length = std::hypot(to.x - from.x, to.y - from.y);
    if (length <= 0 || !std::isfinite(length))
        return;
    const ImVec2 along{(to.x - from.x) / length, (to.y - from.y) / length};
    const float most = 4000;  // a line that leaves the window by far is not worth more dashes
    for (float at = 0; at < std::min(length, most); at += 2 * dash) {
        const float end = std::min(at + dash, length);
        on.AddLine({from.x + along.x * at, from.y + along.y * at},
                   {from.x + along.x * end, from.y + along.y * end}, colour, width);
    }
}

void draw_ruler(ImDrawList& on, const WindowState& state, const rehearsal::DrawingScale& scale,
                const Area& area, double lens_at_m) {
    const rehearsal::Extent shown = shown_in(scale, screen_area(area));
    const auto tick = static_cast<float>(4 * state.scale);
    const float foot = area.most.y;
    ImFont& font = *state.fonts.small;
    for (const double from_lens_m : ruler_marks_m(scale, shown.low.x_m - lens_at_m,
                                                  shown.high.x_m - lens_at_m, 58 * state.scale)) {
        if (from_lens_m < -1e-9)
            continue;
        const float x = on_screen(scale, {from_lens_m + lens_at_m, 0}).x;
        on.AddLine({x, foot - tick}, {x, foot}, state.theme.faint_ink, 1);
        const std::string words =
            fmt::format("{:g} m", std::abs(std::round(from_lens_m * 1000) / 1000));
        on.AddText(&font, font.FontSize,
                   {x + 3, foot - font.FontSize - static_cast<float>(1 * state.scale)},
                   state.theme.faint_ink, words.c_str());
    }
}

void draw_head(ImDrawList& on, const WindowState& state, const ImVec2& middle, float radius,
               optics::Grade grade) {
    const ImU32 colour = grade_ink(grade);
    const auto line = static_cast<float>(1.6 * state.scale);
    on.AddCircleFilled(middle, radius, state.theme.paper);
    if (grade == optics::Grade::crisp)
        on.AddCircleFilled(middle, radius, colour);
    if (grade == optics::Grade::fine)
        on.AddCircleFilled(middle, radius * 0.5f, colour);
    if (grade == optics::Grade::lost)
        on.AddLine({middle.x - radius, middle.y}, {middle.x + radius, middle.y}, colour, line);
    on.AddCircle(middle, radius, colour, 0, line);
}

void Names::letter(ImDrawList& on, const WindowState& state, const ImVec2& left_top,
                   const std::string& name, ImU32 colour, bool at_any_cost) {
    ImFont& font = *state.fonts.small;
    const ImVec2 size = font.CalcTextSizeA(font.FontSize, FLT_MAX, 0, name.c_str());
    const Area area{left_top, {left_top.x + size.x, left_top.y + size.y}};
    const bool is_free = std::ranges::none_of(taken_, [&](const Area& other) {
        return area.least.x < other.most.x && other.least.x < area.most.x &&
               area.least.y < other.most.y && other.least.y < area.most.y;
    });
    if (!is_free && !at_any_cost)
        return;
    taken_.push_back(area);
    on.AddText(&font, font.FontSize, left_top, colour, name.c_str());
}

}  // namespace backrow::window
