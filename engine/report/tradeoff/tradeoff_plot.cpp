#include "report/tradeoff/tradeoff_plot.h"

#include "report/tradeoff/tradeoff_axes.h"
#include "report/tradeoff/tradeoff_levels.h"
#include "report/tradeoff/tradeoff_marks.h"
#include "report/tradeoff/tradeoff_scales.h"
#include "report/tradeoff/tradeoff_style.h"

#include <utility>
#include <vector>

namespace backrow::report {
namespace {

using namespace tradeoff_style;

/// Upright, where each lens that is carried shows the faces as large as now.
std::vector<std::vector<Point2>> lens_lines(const TradeoffReport& report,
                                            const TradeoffScales& scales) {
    std::vector<std::vector<Point2>> lines;
    for (const plan::FramingLens& lens : report.tradeoff.lenses)
        if (lens.lens_to_mark_m && report.tradeoff.range.holds_distance(*lens.lens_to_mark_m)) {
            const double x = scales.x_from_m(*lens.lens_to_mark_m);
            lines.push_back({{x, scales.frame().top}, {x, scales.frame().bottom}});
        }
    return lines;
}

/// The part of the frame where heads are cut: from the left, for stepping back mends it.
Frame part_with_heads_cut(const TradeoffReport& report, const TradeoffScales& scales) {
    Frame part = scales.frame();
    if (const auto& from_m = report.tradeoff.heads_whole_from_m)
        part.right = scales.x_from_m(*from_m);
    return part;
}

}  // namespace

void draw_tradeoff_plot(Canvas& canvas, const Frame& frame, const TradeoffReport& report) {
    const TradeoffScales scales{frame, report.tradeoff};
    draw_shades(canvas, report, scales);
    if (cuts_heads(report))
        draw_hatch(canvas, part_with_heads_cut(report, scales));
    std::vector<Obstacle> uprights;
    for (const std::vector<Point2>& upright : lens_lines(report, scales)) {
        canvas.polyline(upright, false, lens_line);
        for (const Obstacle& obstacle : obstacles_of(upright, lens_line.width_px))
            uprights.push_back(obstacle);
    }
    const std::vector<LevelLine> lines = level_lines(report, scales);
    const TradeoffMarks marks = placed_marks(canvas, report, scales, lines);
    draw_level_lines(canvas, lines, frame, taken_by(marks), uprights);
    canvas.polyline(outline(frame), true, {.colour = ink, .width_px = axis_px});
    draw_marks(canvas, marks);
    draw_tradeoff_axes(canvas, report, scales);
}

}  // namespace backrow::report
