#include "report/drawing/verdict_mark.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace backrow::report {
namespace {

constexpr double middle_x = verdict_mark_width_px / 2;
constexpr double middle_y = verdict_mark_height_px / 2;

/// Round the middle of the box, clockwise from 0 at the right; in turns.
MarkOutline arc(double radius, double from, double to, bool is_filled = false) {
    constexpr int steps_a_turn = 32;
    const int steps = std::max(2, static_cast<int>(std::ceil((to - from) * steps_a_turn)));
    MarkOutline outline{.is_filled = is_filled};
    for (int i = 0; i <= steps; ++i) {
        const double turn = std::lerp(from, to, static_cast<double>(i) / steps);
        const double angle = turn * 2 * std::numbers::pi;
        outline.points.push_back(
            {middle_x + radius * std::cos(angle), middle_y + radius * std::sin(angle)});
    }
    return outline;
}

MarkOutline dot(double radius) {
    return arc(radius, 0, 1, true);
}

MarkOutline ring(double radius) {
    return arc(radius, 0, 1);
}

}  // namespace

Rgb8 verdict_colour(plan::Verdict verdict) noexcept {
    switch (verdict) {
    case plan::Verdict::crisp:
        return {0, 158, 115};  // bluish green
    case plan::Verdict::fine:
        return {86, 180, 233};  // sky blue
    case plan::Verdict::soft:
        return {230, 159, 0};  // orange
    case plan::Verdict::lost:
        return {213, 94, 0};  // vermillion
    case plan::Verdict::hidden:
    case plan::Verdict::cut_off:
        break;
    }
    return {204, 121, 167};  // reddish purple
}

std::vector<MarkOutline> verdict_mark(plan::Verdict verdict) {
    constexpr double wide = 5.2;
    switch (verdict) {
    case plan::Verdict::crisp:
        return {dot(2.8)};
    case plan::Verdict::fine:
        return {ring(3.9), dot(1.6)};
    case plan::Verdict::soft:
        return {ring(wide)};
    case plan::Verdict::lost: {
        constexpr double widest = 6.1;
        return {arc(widest, 0.03, 0.22), arc(widest, 0.28, 0.47), arc(widest, 0.53, 0.72),
                arc(widest, 0.78, 0.97)};
    }
    case plan::Verdict::hidden:
        return {arc(wide, -0.25, 0.25),
                {.points = {{3, 1}, {middle_x, 1}, {middle_x, 13}, {3, 13}}, .is_filled = true}};
    case plan::Verdict::cut_off:
        break;
    }
    return {{.points = {{2, middle_y - 2.5}, {20, middle_y - 2.5}}}, arc(wide, -0.08, 0.58)};
}

void draw_verdict_mark(Canvas& canvas, double left, double top, plan::Verdict verdict,
                       double size) {
    draw_verdict_mark(canvas, left, top, verdict, size, verdict_colour(verdict));
}

void draw_verdict_mark(Canvas& canvas, double left, double top, plan::Verdict verdict, double size,
                       Rgb8 colour) {
    for (MarkOutline& outline : verdict_mark(verdict)) {
        for (Point2& point : outline.points)
            point = {left + size * point.x, top + size * point.y};
        if (outline.is_filled)
            canvas.fill({outline.points}, colour);
        else
            canvas.polyline(outline.points, false,
                            {.colour = colour, .width_px = size * verdict_mark_line_px});
    }
}

}  // namespace backrow::report
