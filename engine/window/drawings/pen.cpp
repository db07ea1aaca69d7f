#include "window/drawings/pen.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace backrow::window {
namespace {

ImVec2 on_screen(const plan::DrawingScale& scale, const plan::DrawingPoint& laid) {
    const plan::ScreenPoint point = screen_from_paper(scale, laid);
    return {static_cast<float>(point.x), static_cast<float>(point.y)};
}

}  // namespace

plan::ScreenArea screen_area(const Area& area) {
    return {.left = area.least.x,
            .top = area.least.y,
            .width = std::max(1.0f, area.width()),
            .height = std::max(1.0f, area.height())};
}

ImVec2 Pen::at(const plan::DrawingPoint& point) const {
    return on_screen(scale, lay(point));
}

void Pen::line(const plan::Line& line, ImU32 colour, double width) const {
    on.AddLine(at(line.from), at(line.to), colour, style.units(width));
}

void draw_zone(const Pen& pen, const plan::DrawnZone& zone, ImU32 wash) {
    // Edges smoothed one by one would leave seams between the pieces.
    const ImDrawListFlags before = pen.on.Flags;
    pen.on.Flags &= ~ImDrawListFlags_AntiAliasedFill;
    for (std::size_t i = 0; i + 1 < zone.size(); ++i)
        if (zone[i] && zone[i + 1])
            pen.on.AddQuadFilled(pen.at(zone[i]->near), pen.at(zone[i]->far),
                                 pen.at(zone[i + 1]->far), pen.at(zone[i + 1]->near), wash);
    pen.on.Flags = before;
}

void draw_dashes(const Pen& pen, const plan::Line& line, ImU32 colour) {
    const ImVec2 from = pen.at(line.from);
    const ImVec2 to = pen.at(line.to);
    const float dash = pen.style.units(3);
    const float length = std::hypot(to.x - from.x, to.y - from.y);
    if (length <= 0 || !std::isfinite(length))
        return;
    const ImVec2 along{(to.x - from.x) / length, (to.y - from.y) / length};
    const float most = 4000;  // a line that leaves the window by far is not worth more dashes
    for (float at = 0; at < std::min(length, most); at += 2 * dash) {
        const float end = std::min(at + dash, length);
        pen.on.AddLine({from.x + along.x * at, from.y + along.y * at},
                       {from.x + along.x * end, from.y + along.y * end}, colour, 1);
    }
}

void draw_ruler(const Pen& pen, const Area& area, double lens_at_m) {
    const Style& style = pen.style;
    const plan::Extent shown = shown_in(pen.scale, screen_area(area));
    const float tick = style.units(4);
    const float foot = area.most.y;
    ImFont& font = *style.fonts.small;
    for (const double from_lens_m : ruler_marks_m(pen.scale, shown.low.x_m - lens_at_m,
                                                  shown.high.x_m - lens_at_m, 58 * style.scale)) {
        if (from_lens_m < -1e-9)
            continue;
        const float x = on_screen(pen.scale, {from_lens_m + lens_at_m, 0}).x;
        pen.on.AddLine({x, foot - tick}, {x, foot}, style.theme.faint_ink, 1);
        const std::string words = length_words(std::abs(std::round(from_lens_m * 1000) / 1000),
                                               LengthScale::short_metres, style.lengths);
        pen.on.AddText(&font, font.FontSize, {x + 3, foot - font.FontSize - style.units(1)},
                       style.theme.faint_ink, words.c_str());
    }
}

void draw_head(const Pen& pen, const ImVec2& middle, float radius, plan::Verdict verdict) {
    const ImU32 colour = verdict_ink(verdict);
    const float line = pen.style.units(1.6);
    pen.on.AddCircleFilled(middle, radius, pen.style.theme.paper);
    if (verdict == plan::Verdict::crisp)
        pen.on.AddCircleFilled(middle, radius, colour);
    if (verdict == plan::Verdict::fine)
        pen.on.AddCircleFilled(middle, radius * 0.5f, colour);
    if (verdict == plan::Verdict::lost)
        pen.on.AddLine({middle.x - radius, middle.y}, {middle.x + radius, middle.y}, colour, line);
    if (verdict == plan::Verdict::hidden)
        pen.on.AddRectFilled({middle.x - radius, middle.y - radius}, {middle.x, middle.y + radius},
                             colour);
    if (verdict == plan::Verdict::cut_off)
        pen.on.AddLine({middle.x - 1.5f * radius, middle.y - 0.4f * radius},
                       {middle.x + 1.5f * radius, middle.y - 0.4f * radius}, colour, line);
    pen.on.AddCircle(middle, radius, colour, 0, line);
}

void draw_title(const Pen& pen, const Area& area, const char* title) {
    ImFont& font = *pen.style.fonts.bold;
    pen.on.AddText(&font, font.FontSize, {area.least.x + pen.style.units(8), area.least.y + 4},
                   pen.style.theme.ink, title);
}

void Names::letter(const Pen& pen, const ImVec2& left_top, const std::string& name, ImU32 colour,
                   bool at_any_cost) {
    ImFont& font = *pen.style.fonts.small;
    const ImVec2 size = font.CalcTextSizeA(font.FontSize, FLT_MAX, 0, name.c_str());
    const Area area{left_top, {left_top.x + size.x, left_top.y + size.y}};
    const bool is_free = std::ranges::none_of(taken_, [&](const Area& other) {
        return area.least.x < other.most.x && other.least.x < area.most.x &&
               area.least.y < other.most.y && other.least.y < area.most.y;
    });
    if (!is_free && !at_any_cost)
        return;
    taken_.push_back(area);
    pen.on.AddText(&font, font.FontSize, left_top, colour, name.c_str());
}

}  // namespace backrow::window
