#pragma once

// The picture within the chart of distance and aperture: shades, lines, their labels, and the axes
// round them.

#include "report/canvas.h"
#include "report/line_labels.h"
#include "report/tradeoff_words.h"

namespace backrow::report {

/// Room that the axes need round the frame.
inline constexpr double plot_room_left_px = 52;
inline constexpr double plot_room_top_px = 38;
inline constexpr double plot_room_bottom_px = 36;

/// frame  where the shades lie; distance runs to the right, stops run upwards from the widest
void draw_tradeoff_plot(Canvas& canvas, const Frame& frame, const TradeoffReport& report);

}  // namespace backrow::report
