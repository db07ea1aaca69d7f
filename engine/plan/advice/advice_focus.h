#pragma once

// Which focus would hold whom: a viewpoint with its aperture chosen and its focus not yet.

#include "plan/advice/least_moves.h"
#include "plan/comparing/viewpoint.h"

#include "optics/blur/focus_span.h"

#include <optional>
#include <vector>

namespace backrow::plan {

/// At this f-number no face may be blurred by defocus and lens by more than limit_mm on the sensor,
/// nor when it has drifted by margin_m along the axis, either way.
struct Demand {
    double f_number = 0;
    double limit_mm = 0;
    double margin_m = 0;
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

/// This eye after it has drifted along the axis, away from the camera, and stays where it is in the
/// picture, as the margins of the face table count.
[[nodiscard]] inline optics::PointInView drifted(const optics::PointInView& eye, double by_m) {
    return {.axial_m = eye.axial_m + by_m, .field_tangent = eye.field_tangent};
}

/// The eyes at both ends of the drift; once where there is none.
[[nodiscard]] std::vector<optics::PointInView>
drifted_both_ways(const std::vector<optics::PointInView>& eyes, double margin_m);

/// The focus distances that hold all of these eyes wherever they drift. The farther an eye, the
/// farther both ends of the focus distances that hold it, so the drift away from the camera sets
/// the near end and the drift towards it the far end.
[[nodiscard]] std::optional<optics::AxialRange>
holding_span(const Viewpoint& at, const std::vector<optics::PointInView>& eyes,
             const Demand& demand);

/// The focus distances at which nobody is beyond help by moves of most_cm; necessary, not enough.
/// With most_cm = 0, those that hold everybody as they stand.
[[nodiscard]] std::optional<optics::AxialRange> reachable_span(const Viewpoint& at,
                                                               const Demand& demand, int most_cm);

/// Moves after which each face holds with the focus at some place from … to; one place where they
/// are the same.
[[nodiscard]] std::vector<MoveRange> holding_ranges(const Viewpoint& at, const Demand& demand,
                                                    const optics::AxialRange& focus);

}  // namespace backrow::plan
