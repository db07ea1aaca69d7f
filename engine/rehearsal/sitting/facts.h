#pragma once

// What follows from a scene: how it is seen, how sharp everybody is, and both drawings of it.

#include "plan/drawings/from_above.h"
#include "plan/drawings/from_the_side.h"
#include "plan/drawings/model_outlines.h"

#include "plan/comparing/background.h"
#include "plan/faces/face_table.h"
#include "scene/camera_view.h"
#include "scene/scene.h"

#include <cstddef>
#include <vector>

namespace backrow::rehearsal {

struct Facts {
    scene::CameraView view{};
    plan::FaceTable table{};
    plan::Background background{};
    plan::FromAbove above{};
    plan::FromTheSide side{};
    std::vector<std::size_t>
        worst_first{};  ///< Indices of people; whoever is out of the frame last.
};

/// Worked out once for each scene.
///
/// models  as from_above() takes them
[[nodiscard]] Facts facts_of(const scene::Scene& scene, const plan::ModelOutlines& models);

}  // namespace backrow::rehearsal
