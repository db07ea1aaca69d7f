#pragma once

// The risers and steps under people who stand above the ground.

#include "scene/scene.h"

#include "setting/surroundings.h"

#include <vector>

namespace backrow::scene {

/// In the order of rows, then of people placed alone; see footing.h.
[[nodiscard]] std::vector<setting::Block> risers_under(const std::vector<Person>& people);

}  // namespace backrow::scene
