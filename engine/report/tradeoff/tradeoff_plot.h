#pragma once

// The picture within the chart of distance and aperture: shades, lines, marks, and the scales round
// them.

#include "report/drawing/canvas.h"
#include "report/drawing/line_labels.h"
#include "report/tradeoff/tradeoff_words.h"

namespace backrow::report {

/// frame  where the shades lie; the scales need the room of tradeoff_axes.h round it
void draw_tradeoff_plot(Canvas& canvas, const Frame& frame, const TradeoffReport& report);

}  // namespace backrow::report
