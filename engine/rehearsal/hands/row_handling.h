#pragma once

// Who stands in which row, and between whom: people put into rows and taken out of them.

#include "rehearsal/hands/handling.h"

#include "scene/scene.h"

#include <cstddef>

namespace backrow::rehearsal {

/// Between whom in a row somebody at this place would stand: as many of the others stand further to
/// picture left.
[[nodiscard]] std::size_t position_in_row(const scene::Scene& scene, int row, std::size_t person,
                                          double across_m);

/// Somebody put into a row, in line with it, from another row, from a place alone or from elsewhere
/// in the same; the others close up and make room. Whoever is carried goes on being carried: the
/// carrier is put there.
///
/// row       0 … scene::row_count(); that is a new row behind the others
/// position  how many of the others stand to picture left, no more than there are
[[nodiscard]] Change stand_in_row(const scene::Scene& scene, std::size_t person, int row,
                                  std::size_t position);

/// Out of the row, to stand alone where they are; the others close up.
[[nodiscard]] Change leave_row(const scene::Scene& scene, std::size_t person);

}  // namespace backrow::rehearsal
