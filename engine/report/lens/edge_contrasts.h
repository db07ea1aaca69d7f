#pragma once

// What the edges of test frames say of a lens: contrast by opening, place and direction.

#include "optics/fitting/profile_fit.h"
#include "report/lens/edge_report.h"

#include <vector>

namespace backrow::report {

/// Edges that lie about as far from the middle and are turned about alike are one measure, their
/// mean; each at a few frequencies at which contrast has much to say.
///
/// frames    each with its f-number
/// pixel_mm  > 0
[[nodiscard]] std::vector<optics::MeasuredContrast>
edge_contrasts(const std::vector<FrameEdges>& frames, double pixel_mm);

/// The bright sides of edges.
[[nodiscard]] std::vector<optics::MeasuredLight> edge_light(const std::vector<FrameEdges>& frames);

}  // namespace backrow::report
