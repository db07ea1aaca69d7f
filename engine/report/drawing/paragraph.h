#pragma once

// Text over several lines.

#include "report/drawing/canvas.h"

#include <string>

namespace backrow::report {

/// Letters the text from x on, no line wider than width_px unless a single word is, which is cut;
/// broken at spaces, but not between a number and what it counts. first_baseline_y is that of the
/// first line, line_px from one baseline to the next.
///
/// returns  the baseline of the line after the last
[[nodiscard]] double draw_paragraph(Canvas& canvas, double x, double first_baseline_y,
                                    double width_px, double line_px, const std::string& text,
                                    const Lettering& lettering);

}  // namespace backrow::report
