#pragma once

// Which focus would hold whom: a viewpoint with its aperture chosen and its focus not yet.

#include "plan/advice/least_moves.h"
#include "plan/comparing/viewpoint.h"

#include "optics/focus_span.h"

#include <optional>
#include <vector>

namespace backrow::plan {

/// At this f-number no face may be blurred by more than limit_mm on the sensor.
struct Demand {
    double f_number = 0;
    double limit_mm = 0;
};

/// The lens of the viewpoint, stopped down or opened.
///
/// f_number  > 0
[[nodiscard]] optics::Lens stopped_lens(const Viewpoint& at, double f_number);

/// What a step of one metre back adds to the distance along the axis.
[[nodiscard]] double axial_per_back(const Viewpoint& at);

/// This eye after its owner has stepped back.
[[nodiscard]] optics::PointInView stepped_back(const Viewpoint& at, const optics::PointInView& eye,
                                               double by_m);

/// The focus distances at which nobody is beyond help by moves of most_cm; necessary, not enough.
/// With most_cm = 0, those that hold everybody as they stand.
[[nodiscard]] std::optional<optics::AxialRange> reachable_span(const Viewpoint& at,
                                                               const Demand& demand, int most_cm);

/// Moves after which each face holds with the focus at some place from … to; one place where they
/// are the same.
[[nodiscard]] std::vector<MoveRange> holding_ranges(const Viewpoint& at, const Demand& demand,
                                                    const optics::AxialRange& focus);

}  // namespace backrow::plan
