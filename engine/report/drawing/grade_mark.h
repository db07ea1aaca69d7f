#pragma once

// The sign for a grade: an eye that sees less and less. Shape alone tells the four apart; colour
// only helps.

#include "report/drawing/canvas.h"

#include "optics/viewing.h"

namespace backrow::report {

inline constexpr double grade_mark_width_px = 22;
inline constexpr double grade_mark_height_px = 14;

/// Four colours that people with any common colour blindness tell apart. Source: [OKABE2008].
[[nodiscard]] Rgb8 grade_colour(optics::Grade grade) noexcept;

/// Crisp: an open eye with iris and pupil. Fine: an open eye with a small pupil alone. Soft: an
/// empty eye. Lost: a shut lid with its lashes.
///
/// size  times the size above
void draw_grade_mark(Canvas& canvas, double left, double top, optics::Grade grade, double size = 1);

}  // namespace backrow::report
