#include "plan/drawings/drawing_scale.h"

#include "base/round_numbers.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace backrow::plan {

ScreenPoint screen_from_paper(const DrawingScale& scale, const DrawingPoint& point) {
    return {.x = scale.zero.x + scale.units_per_m * point.x_m,
            .y = scale.zero.y - scale.units_per_m * point.y_m};
}

DrawingPoint paper_from_screen(const DrawingScale& scale, const ScreenPoint& point) {
    return {.x_m = (point.x - scale.zero.x) / scale.units_per_m,
            .y_m = (scale.zero.y - point.y) / scale.units_per_m};
}

DrawingScale fitted(const Extent& extent, const ScreenArea& area, double margin) {
    constexpr double infinity = std::numeric_limits<double>::infinity();
    const auto units_for = [&](double metres, double units) {
        const double free = units > 3 * margin ? units - 2 * margin : units / 3;
        return metres > 0 ? free / metres : infinity;
    };
    DrawingScale scale;
    scale.units_per_m = std::clamp(std::min(units_for(extent.width_m(), area.width),
                                            units_for(extent.height_m(), area.height)),
                                   least_units_per_m, most_units_per_m);
    scale.zero = {.x = area.left + area.width / 2 -
                       scale.units_per_m * (extent.low.x_m + extent.high.x_m) / 2,
                  .y = area.top + area.height / 2 +
                       scale.units_per_m * (extent.low.y_m + extent.high.y_m) / 2};
    return scale;
}

DrawingScale zoomed(const DrawingScale& scale, const ScreenPoint& about, double factor) {
    const double units_per_m =
        std::clamp(scale.units_per_m * factor, least_units_per_m, most_units_per_m);
    const double grown = units_per_m / scale.units_per_m;
    return {.units_per_m = units_per_m,
            .zero = {.x = about.x + grown * (scale.zero.x - about.x),
                     .y = about.y + grown * (scale.zero.y - about.y)}};
}

DrawingScale panned(const DrawingScale& scale, double right, double down) {
    return {.units_per_m = scale.units_per_m,
            .zero = {.x = scale.zero.x + right, .y = scale.zero.y + down}};
}

Extent shown_in(const DrawingScale& scale, const ScreenArea& area) {
    Extent extent;
    extent.take(paper_from_screen(scale, {.x = area.left, .y = area.top}));
    extent.take(
        paper_from_screen(scale, {.x = area.left + area.width, .y = area.top + area.height}));
    return extent;
}

std::vector<double> ruler_marks_m(const DrawingScale& scale, double low_m, double high_m,
                                  double least_gap) {
    // Marks at both ends of a stretch leave one gap fewer than there are marks.
    constexpr double most_marks = 1000;
    const double gaps = (high_m - low_m) * scale.units_per_m / least_gap;
    return round_numbers(low_m, high_m, static_cast<int>(std::clamp(gaps, 2.0, most_marks)));
}

}  // namespace backrow::plan
