#pragma once

// One lens at one distance, before aperture and focus are chosen: how far off everybody's eye is,
// and which focus would hold whom.

#include "plan/least_moves.h"
#include "scene/scene.h"

#include "optics/focus_span.h"

#include "optics/viewing.h"

#include <optional>
#include <vector>

namespace backrow::plan {

struct Viewpoint {
    scene::Scene scene;  ///< With this lens and distance; nobody moved.
    optics::UnfocusedLens lens;
    std::vector<optics::PointInView> eyes;
    double limit_mm = 0;
    double axial_per_back = 1;  ///< What a step back adds along the axis.
};

/// The scene as it stands; limit_mm is that of the uncropped picture.
[[nodiscard]] Viewpoint viewpoint(scene::Scene scene, optics::Grade grade);

/// The focus distances that hold everybody with nobody moved.
[[nodiscard]] std::optional<optics::FocusSpan> common_span(const Viewpoint& at, double f_number);

/// The focus distances at which nobody is beyond help by moves of most_cm; necessary, not enough.
[[nodiscard]] std::optional<optics::FocusSpan> reachable_span(const Viewpoint& at, double f_number,
                                                              int most_cm);

/// Moves after which each face holds with the focus at some place from … to; one place where they
/// are the same.
[[nodiscard]] std::vector<MoveRange> holding_ranges(const Viewpoint& at, double f_number,
                                                    const optics::FocusSpan& focus);

}  // namespace backrow::plan
