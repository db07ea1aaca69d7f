#pragma once

// What a lens does, on one page, A4 across: sharpness by opening from the middle to the corner, the
// shape of its field, the light that it loses.

#include "report/drawing/canvas.h"
#include "report/lens/lens_report.h"

namespace backrow::report {

/// The page; 72 of its pixels are an inch.
[[nodiscard]] Canvas lens_sheet(const LensReport& report);

}  // namespace backrow::report
