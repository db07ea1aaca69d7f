#pragma once

// The three scales round the chart of distance and aperture: distance below, f-numbers at the left,
// and on top the focal lengths that would show the faces as large as now.

#include "report/drawing/canvas.h"
#include "report/tradeoff/tradeoff_scales.h"
#include "report/tradeoff/tradeoff_words.h"

namespace backrow::report {

/// Room that the scales need round the frame.
inline constexpr double axes_room_left_px = 52;
inline constexpr double axes_room_top_px = 38;
inline constexpr double axes_room_bottom_px = 36;

void draw_tradeoff_axes(Canvas& canvas, const TradeoffReport& report, const TradeoffScales& scales);

}  // namespace backrow::report
