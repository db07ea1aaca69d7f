#pragma once

// How close rows and neighbours may stand, and how high a row must be to be seen over those in
// front of it. Bodies are taken as their solids.

#include "scene/group_plan.h"

#include <vector>

namespace backrow::arranging {

/// The least distance from one middle to the next, in whole centimetres, at which neighbours of no
/// row touch.
[[nodiscard]] double least_spacing_m(const scene::GroupPlan& plan);

/// Sets back_m of every row, in whole centimetres: from the front row at 0 each stands as close to
/// the one before it as bodies and seats allow, toe to heel.
void close_up(std::vector<scene::PlannedRow>& rows, double spacing_m);

/// Sets stagger of every row. staggered: heads behind gaps; otherwise behind heads.
void set_stagger(std::vector<scene::PlannedRow>& rows, bool staggered);

/// How high each row must stand for every face, down to the chin, to be clear of all solids before
/// it as the lens sees them, and not lower than the row in front; whole centimetres, the front row
/// at 0.
///
/// scene   everybody in place; what it says of up_m is not asked
/// rows    how many there are
[[nodiscard]] std::vector<double> needed_ups_m(const scene::Scene& scene, std::size_t rows);

}  // namespace backrow::arranging
