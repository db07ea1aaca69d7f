#pragma once

// How much ground imported models take.

#include "plan/drawings/drawing.h"

#include "scene/scene.h"

#include <map>
#include <span>
#include <string>
#include <vector>

namespace backrow::plan {

/// Of each file the box round the model, seen from above, about its own origin, unturned, in its
/// own units.
using ModelOutlines = std::map<std::string, Extent>;

/// Looks at every corner: not to be asked at every change. Turning, scaling and moving a model make
/// no difference. Models without a shape (stage/model_shapes.h) are left out.
[[nodiscard]] ModelOutlines outlines_of(const std::vector<scene::Model>& models);

}  // namespace backrow::plan
