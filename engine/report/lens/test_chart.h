#pragma once

// The chart to photograph: slanted squares over a sheet, a star to focus on, and how to shoot it.

#include "report/drawing/canvas.h"

#include "base/image_files.h"

namespace backrow::report {

enum class Paper { a4, letter };

/// The sheet lying across; 72 of its pixels are an inch. Solid black on white: printers make greys
/// of dots, and dots have edges of their own.
[[nodiscard]] Canvas test_chart(Paper paper);

[[nodiscard]] Bytes test_chart_pdf(Paper paper);

}  // namespace backrow::report
