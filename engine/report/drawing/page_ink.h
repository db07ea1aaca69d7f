#pragma once

// Black on white: what pages to be printed are drawn with.

#include "report/drawing/canvas.h"

namespace backrow::report {

inline constexpr Rgb8 paper{255, 255, 255};
inline constexpr Rgb8 ink{24, 28, 36};
inline constexpr Rgb8 faint_ink{96, 102, 112};
inline constexpr Rgb8 grid_ink{214, 219, 226};

}  // namespace backrow::report
