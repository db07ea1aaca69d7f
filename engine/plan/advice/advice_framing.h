#pragma once

// Whether a head could be kept in the picture from some other place, before any moves are sought.

#include "plan/comparing/viewpoint.h"
#include "plan/faces/face_table.h"

namespace backrow::plan {

/// False only where somebody whose head is whole in the picture now would be cut off from this
/// viewpoint whatever the focus and whoever moves forward or back by most_cm at most.
///
/// now  the face table of the scene as it is
[[nodiscard]] bool can_stay_framed(const Viewpoint& at, const FaceTable& now, int most_cm);

}  // namespace backrow::plan
