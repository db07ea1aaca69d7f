#pragma once

// How blurred faces and background are, over the whole chart of distance and aperture: shades, and
// lines of equal blur with their labels.

#include "report/drawing/canvas.h"
#include "report/drawing/line_labels.h"
#include "report/tradeoff/tradeoff_scales.h"
#include "report/tradeoff/tradeoff_words.h"

#include <string>
#include <vector>

namespace backrow::report {

/// A line of equal blur and what is to be written on it.
struct LevelLine {
    std::vector<Point2> line{};  ///< On the page, from left to right.
    Stroke stroke{};
    std::string words{};
    std::string fewer_words{};  ///< Where the words find no room; empty: none.
    Lettering lettering{};
    double wish = 0.5;       ///< Where along the line the label should be, a share of its length.
    bool is_border = false;  ///< Of a grade.
};

/// All that are to be drawn, borders first.
[[nodiscard]] std::vector<LevelLine> level_lines(const TradeoffReport& report,
                                                 const TradeoffScales& scales);

/// The blur of the worst face, filling the frame.
void draw_shades(Canvas& canvas, const TradeoffReport& report, const TradeoffScales& scales);

/// The lines with those labels that find room, the first first. Without its label a border is drawn
/// still, for its weight tells what it is; any other line would only puzzle.
///
/// taken    what labels must not touch
/// avoided  what they should not cross, besides the lines
void draw_level_lines(Canvas& canvas, const std::vector<LevelLine>& lines, const Frame& frame,
                      std::vector<Obstacle> taken, const std::vector<Obstacle>& avoided);

}  // namespace backrow::report
