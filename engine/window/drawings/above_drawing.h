#pragma once

// The scene from above, drawn.

#include "window/drawings/pen.h"

#include "plan/drawings/from_above.h"
#include "scene/scene.h"

#include <cstddef>
#include <vector>

namespace backrow::window {

/// pen          lays with laid_right()
/// worst_first  as Facts has it: whose names come first where there is little room
void draw_from_above(const Pen& pen, const plan::FromAbove& drawing, const scene::Scene& scene,
                     const std::vector<std::size_t>& worst_first, const Marked& marked);

}  // namespace backrow::window
