#pragma once

// What the shades, lines and marks of the chart of distance and aperture mean; only what the chart
// does show.

#include "report/drawing/canvas.h"
#include "report/tradeoff/tradeoff_words.h"

namespace backrow::report {

/// A column of text and signs.
///
/// left, top  of the column
/// width_px   no line is wider
void draw_tradeoff_key(Canvas& canvas, double left, double top, double width_px,
                       const TradeoffReport& report);

}  // namespace backrow::report
