#pragma once

// Where distances and f-numbers lie on the chart: distance evenly to the right, stops evenly
// upwards from the widest opening.

#include "report/drawing/line_labels.h"

#include "plan/comparing/tradeoff.h"

#include <optional>

namespace backrow::report {

/// Keeps a reference to the answer, which must outlive it.
class TradeoffScales {
public:
    TradeoffScales(const Frame& frame, const plan::Tradeoff& answer)
        : frame_{frame}, answer_{answer} {}

    [[nodiscard]] const Frame& frame() const noexcept { return frame_; }

    [[nodiscard]] double x_from_m(double lens_to_mark_m) const;
    [[nodiscard]] double y_from_f_number(double f_number) const;

    /// From a place between the samples of the answer: x counts distances, y f-numbers.
    [[nodiscard]] Point2 page_from_samples(const Point2& place) const;

    /// Where a lens of this focal length shows the faces as large as now; nothing beyond the chart.
    [[nodiscard]] std::optional<double> x_framing_alike(double focal_length_mm) const;

private:
    [[nodiscard]] double x_from_share(double share) const;
    [[nodiscard]] double y_from_share(double share) const;

    Frame frame_;
    const plan::Tradeoff& answer_;
};

}  // namespace backrow::report
