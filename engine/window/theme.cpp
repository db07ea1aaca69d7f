#include "window/theme.h"

#include "report/drawing/verdict_mark.h"

namespace backrow::window {
namespace {

ImVec4 vec(ImU32 colour) {
    return ImGui::ColorConvertU32ToFloat4(colour);
}

}  // namespace

Theme day() noexcept {
    return {.is_dark = false,
            .desk = IM_COL32(226, 222, 213, 255),
            .paper = IM_COL32(250, 248, 243, 255),
            .raised = IM_COL32(236, 232, 223, 255),
            .ink = IM_COL32(30, 34, 42, 255),
            .faint_ink = IM_COL32(82, 84, 88, 255),
            .rule = IM_COL32(206, 201, 190, 255),
            .accent = IM_COL32(122, 41, 92, 255),
            .accent_wash = IM_COL32(122, 41, 92, 40),
            .frame_wash = IM_COL32(60, 66, 80, 16),
            .fine_wash = IM_COL32(86, 180, 233, 70),
            .crisp_wash = IM_COL32(0, 158, 115, 80),
            .focus = IM_COL32(30, 34, 42, 255),
            .ground = IM_COL32(172, 160, 138, 110)};
}

Theme night() noexcept {
    return {.is_dark = true,
            .desk = IM_COL32(20, 22, 27, 255),
            .paper = IM_COL32(32, 35, 42, 255),
            .raised = IM_COL32(52, 56, 66, 255),
            .ink = IM_COL32(232, 229, 222, 255),
            .faint_ink = IM_COL32(184, 183, 180, 255),
            .rule = IM_COL32(66, 70, 80, 255),
            .accent = IM_COL32(236, 156, 206, 255),
            .accent_wash = IM_COL32(236, 156, 206, 44),
            .frame_wash = IM_COL32(220, 224, 235, 14),
            .fine_wash = IM_COL32(86, 180, 233, 56),
            .crisp_wash = IM_COL32(0, 178, 130, 80),
            .focus = IM_COL32(232, 229, 222, 255),
            .ground = IM_COL32(150, 138, 116, 100)};
}

void apply(const Theme& theme, double scale) {
    ImGuiStyle style;
    style.WindowPadding = {10, 8};
    style.FramePadding = {7, 3};
    style.ItemSpacing = {7, 5};
    style.ItemInnerSpacing = {5, 4};
    style.ScrollbarSize = 11;
    style.WindowBorderSize = 0;
    style.PopupBorderSize = 1;
    style.FrameRounding = 3;
    style.PopupRounding = 4;
    style.GrabRounding = 3;
    style.TabRounding = 3;
    style.ScaleAllSizes(static_cast<float>(scale));

    const auto set = [&](ImGuiCol_ what, ImU32 colour) { style.Colors[what] = vec(colour); };
    set(ImGuiCol_Text, theme.ink);
    set(ImGuiCol_TextDisabled, theme.faint_ink);
    set(ImGuiCol_WindowBg, theme.paper);
    set(ImGuiCol_ChildBg, IM_COL32_BLACK_TRANS);
    set(ImGuiCol_PopupBg, theme.paper);
    set(ImGuiCol_Border, theme.rule);
    set(ImGuiCol_FrameBg, theme.raised);
    set(ImGuiCol_FrameBgHovered, theme.rule);
    set(ImGuiCol_FrameBgActive, theme.rule);
    set(ImGuiCol_ScrollbarBg, IM_COL32_BLACK_TRANS);
    set(ImGuiCol_ScrollbarGrab, theme.rule);
    set(ImGuiCol_ScrollbarGrabHovered, theme.faint_ink);
    set(ImGuiCol_ScrollbarGrabActive, theme.faint_ink);
    set(ImGuiCol_CheckMark, theme.accent);
    set(ImGuiCol_SliderGrab, theme.accent);
    set(ImGuiCol_SliderGrabActive, theme.accent);
    set(ImGuiCol_Button, theme.raised);
    set(ImGuiCol_ButtonHovered, theme.rule);
    set(ImGuiCol_ButtonActive, theme.accent_wash);
    set(ImGuiCol_Header, theme.accent_wash);
    set(ImGuiCol_HeaderHovered, theme.rule);
    set(ImGuiCol_HeaderActive, theme.rule);
    set(ImGuiCol_Separator, theme.rule);
    set(ImGuiCol_Tab, theme.raised);
    set(ImGuiCol_TabHovered, theme.rule);
    set(ImGuiCol_TabActive, theme.accent_wash);
    set(ImGuiCol_PlotHistogram, theme.accent);
    set(ImGuiCol_TextSelectedBg, theme.accent_wash);
    set(ImGuiCol_NavHighlight, theme.accent);
    set(ImGuiCol_ModalWindowDimBg, with_alpha(theme.desk, 150));
    ImGui::GetStyle() = style;
}

ImU32 verdict_ink(plan::Verdict verdict) noexcept {
    const Rgb8 colour = report::verdict_colour(verdict);
    return IM_COL32(colour.r, colour.g, colour.b, 255);
}

ImU32 with_alpha(ImU32 colour, int alpha) noexcept {
    return (colour & ~IM_COL32_A_MASK) | (static_cast<ImU32>(alpha) << IM_COL32_A_SHIFT);
}

void draw_verdict(ImDrawList& on, const ImVec2& left_top, plan::Verdict verdict, double size) {
    const ImU32 colour = verdict_ink(verdict);
    for (const report::MarkOutline& outline : report::verdict_mark(verdict)) {
        std::vector<ImVec2> points;
        for (const Point2& point : outline.points)
            points.emplace_back(left_top.x + static_cast<float>(size * point.x),
                                left_top.y + static_cast<float>(size * point.y));
        const auto count = static_cast<int>(points.size());
        if (outline.is_filled)
            on.AddConvexPolyFilled(points.data(), count, colour);
        else
            on.AddPolyline(points.data(), count, colour, ImDrawFlags_None,
                           static_cast<float>(size * report::verdict_mark_line_px));
    }
}

void draw_focus_mark(ImDrawList& on, const Theme& theme, float y, float left, float right,
                     float length, double scale) {
    const auto line = static_cast<float>(2 * scale);
    for (const auto& [from, to] :
         {std::pair{left - length, left}, std::pair{right, right + length}}) {
        on.AddLine({from, y}, {to, y}, IM_COL32(20, 22, 26, 160), 2 * line);
        on.AddLine({from, y}, {to, y}, theme.focus, line);
    }
}

}  // namespace backrow::window
