#pragma once

// From metres on a drawing to units of a screen and back: the same scale across and up, so that a
// metre is a metre whichever way it lies.

#include "plan/drawings/drawing.h"

#include <vector>

namespace backrow::plan {

/// Units of the screen, whatever they are there; y grows downwards.
struct ScreenPoint {
    double x = 0;
    double y = 0;
};

struct ScreenArea {
    double left = 0;
    double top = 0;
    double width = 0;
    double height = 0;
};

/// How far a drawing can be enlarged and reduced.
inline constexpr double least_units_per_m = 0.5;
inline constexpr double most_units_per_m = 20'000;

struct DrawingScale {
    double units_per_m = 1;
    ScreenPoint zero;  ///< Where (0, 0) of the drawing lies.
};

[[nodiscard]] ScreenPoint screen_from_paper(const DrawingScale& scale, const DrawingPoint& point);
[[nodiscard]] DrawingPoint paper_from_screen(const DrawingScale& scale, const ScreenPoint& point);

/// The largest scale at which an extent fits into the middle of an area.
///
/// extent  not empty; may be a mere point or line
/// area    of some width and height
/// margin  screen units left free at each side, as far as there is room for them
[[nodiscard]] DrawingScale fitted(const Extent& extent, const ScreenArea& area, double margin);

/// Enlarged by a factor > 0, with what is under a point of the screen staying where it is.
[[nodiscard]] DrawingScale zoomed(const DrawingScale& scale, const ScreenPoint& about,
                                  double factor);
/// Moved by so many screen units.
[[nodiscard]] DrawingScale panned(const DrawingScale& scale, double right, double down);

/// What of the paper shows in an area.
[[nodiscard]] Extent shown_in(const DrawingScale& scale, const ScreenArea& area);

/// Round numbers of metres for a ruler from one end to the other, no closer than a gap.
///
/// low_m, high_m  finite, low < high
/// least_gap      screen units, > 0
[[nodiscard]] std::vector<double> ruler_marks_m(const DrawingScale& scale, double low_m,
                                                double high_m, double least_gap);

}  // namespace backrow::plan
