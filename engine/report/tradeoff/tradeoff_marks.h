#pragma once

// The marks on the chart of distance and aperture: the present setting with its word, and the
// lenses carried.

#include "report/drawing/canvas.h"
#include "report/drawing/line_labels.h"
#include "report/tradeoff/tradeoff_levels.h"
#include "report/tradeoff/tradeoff_scales.h"
#include "report/tradeoff/tradeoff_words.h"

#include <optional>
#include <vector>

namespace backrow::report {

/// Where the marks stand on the page.
struct TradeoffMarks {
    std::optional<Point2> now{};  ///< None where the present setting lies off the chart.
    Frame now_word{};             ///< The plate beside it.
    std::optional<Point2> own_lens{};
    std::vector<Point2> other_lenses{};
};

/// Whether the chart marks from which aperture this lens holds every face. Not where only the lens
/// of the scene is carried: for that the border says it.
[[nodiscard]] bool is_marked(const TradeoffReport& report, const plan::FramingLens& lens);

/// The word stands on that side of its mark where it hides the least of borders and lenses.
[[nodiscard]] TradeoffMarks placed_marks(Canvas& canvas, const TradeoffReport& report,
                                         const TradeoffScales& scales,
                                         const std::vector<LevelLine>& lines);

/// What the marks take, so that no label touches them.
[[nodiscard]] std::vector<Obstacle> taken_by(const TradeoffMarks& marks);

void draw_marks(Canvas& canvas, const TradeoffMarks& marks);

}  // namespace backrow::report
