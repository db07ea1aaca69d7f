#pragma once

// The sign for a verdict: the blur circle itself, which grows, or what is in its way. Shape alone
// tells them apart; colour only helps.

#include "plan/faces/verdict.h"
#include "report/drawing/canvas.h"

#include "base/sequences.h"

#include <vector>

namespace backrow::report {

inline constexpr double verdict_mark_width_px = 22;
inline constexpr double verdict_mark_height_px = 14;
inline constexpr double verdict_mark_line_px = 1.8;

/// Colours that people with any common colour blindness tell apart. Source: [OKABE2008].
[[nodiscard]] Rgb8 verdict_colour(plan::Verdict verdict) noexcept;

/// A line, or an area where it is filled, which is convex.
struct MarkOutline {
    std::vector<Point2> points{};
    bool is_filled = false;
};

/// Crisp: a dot. Fine: a dot in a ring. Soft: a wide ring. Lost: the widest, falling apart. Hidden:
/// a ring behind a block. Cut off: what an edge leaves of a ring. In a box of the size above, from
/// its left top; whoever draws on anything but a Canvas draws these.
[[nodiscard]] std::vector<MarkOutline> verdict_mark(plan::Verdict verdict);

/// size  times the size above
void draw_verdict_mark(Canvas& canvas, double left, double top, plan::Verdict verdict,
                       double size = 1);
/// In another colour than its own.
void draw_verdict_mark(Canvas& canvas, double left, double top, plan::Verdict verdict, double size,
                       Rgb8 colour);

}  // namespace backrow::report
