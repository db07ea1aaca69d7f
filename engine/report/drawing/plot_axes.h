#pragma once

// Two plain scales round a plot, with a grid behind it.

#include "report/drawing/canvas.h"
#include "report/drawing/line_labels.h"

#include <functional>
#include <string>
#include <vector>

namespace backrow::report {

/// One scale of a plot.
struct PlotScale {
    double from = 0;  ///< At the left or below …
    double to = 1;    ///< … and at the right or above; from ≠ to.
    std::string words{};
    int most_marks = 6;
    /// How a mark is lettered; as short as can be where nothing is said.
    std::function<std::string(double)> mark_words{};
};

/// Where values lie on the page.
struct PlotPlaces {
    Frame frame;
    double x_from = 0, x_to = 1, y_from = 0, y_to = 1;

    [[nodiscard]] Point2 at(double x, double y) const noexcept;
};

/// Draws the frame, round numbers with their grid lines, and what each scale counts.
PlotPlaces draw_axes(Canvas& canvas, const Frame& frame, const PlotScale& across,
                     const PlotScale& up);

/// A line through values, x within the scale; what lies above or below the frame is left out.
void draw_curve(Canvas& canvas, const PlotPlaces& places, const std::vector<Point2>& values,
                const Stroke& stroke);

/// Letters a text about a middle.
void centred_text(Canvas& canvas, double middle_x, double baseline_y, const std::string& text,
                  const Lettering& lettering);

}  // namespace backrow::report
