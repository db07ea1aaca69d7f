#pragma once

// How the chart of distance and aperture looks: one hue that darkens with the blur of the faces,
// whole lines for it, dashes of another hue for the background. Every difference in colour is one
// of lightness or of dash as well, for print in grey and for eyes that tell few hues apart.

#include "report/drawing/canvas.h"
#include "report/drawing/line_labels.h"
#include "report/drawing/page_ink.h"
#include "scene/scene.h"

#include <cstddef>
#include <vector>

namespace backrow::report::tradeoff_style {

inline constexpr Rgb8 background_ink{106, 38, 0};

inline const Lettering note_lettering{.size_px = 8.5, .bold = false, .colour = ink};

inline constexpr double axis_px = 0.8;
inline const Stroke fine_border{.colour = ink, .width_px = 3.0};
inline const Stroke crisp_border{.colour = ink, .width_px = 1.7};
inline const Stroke blur_line{.colour = {64, 78, 102}, .width_px = 0.7};
inline const Stroke background_line{
    .colour = background_ink, .width_px = 1.15, .dashes_px = {5, 3}};
inline const Stroke lens_line{.colour = ink, .width_px = 1.0, .dashes_px = {1, 2.5}};

inline const Stroke hatch_line{.colour = {64, 78, 102}, .width_px = 0.6};

/// Where the shades of the faces' blur meet, in what they are judged in, rising; the limits of the
/// grades are among them.
[[nodiscard]] std::vector<double> blur_levels(const scene::Viewing& viewing);

/// Shade number i of so many, from the sharpest, which is the lightest.
[[nodiscard]] Rgb8 shade(std::size_t i, std::size_t count);

/// Values for lines of the background's blur between two values, at most a handful.
[[nodiscard]] std::vector<double> background_levels(double least, double greatest);

/// Oblique lines over a part of the chart: there the frame cuts heads.
void draw_hatch(Canvas& canvas, const Frame& part);

/// The present setting: a ring with a dot in it.
void draw_now(Canvas& canvas, const Point2& middle);

/// From which aperture a carried lens holds every face: a full lozenge for the lens of the scene, a
/// hollow one for another, since what lies round it on the chart is not true of that.
void draw_own_lens(Canvas& canvas, const Point2& middle);
void draw_other_lens(Canvas& canvas, const Point2& middle);

}  // namespace backrow::report::tradeoff_style
