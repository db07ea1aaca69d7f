#pragma once

// The seats and benches under people who sit.

#include "scene/scene.h"

#include "setting/surroundings.h"

#include <vector>

namespace backrow::scene {

/// In the order of rows, then of people placed alone; see footing.h.
[[nodiscard]] std::vector<setting::Block> seats_under(const std::vector<Person>& people);

}  // namespace backrow::scene
