#pragma once

// Text over several lines.

#include "report/drawing/canvas.h"

#include <string>

namespace backrow::report {

/// Canvas::paragraph(), not broken between a number and what it counts.
[[nodiscard]] double draw_paragraph(Canvas& canvas, double x, double first_baseline_y,
                                    double width_px, double line_px, const std::string& text,
                                    const Lettering& lettering);

}  // namespace backrow::report
