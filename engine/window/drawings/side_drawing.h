#pragma once

// Heads in profile, drawn.

#include "window/drawings/pen.h"

#include "plan/drawings/from_the_side.h"

#include <cstddef>
#include <vector>

namespace backrow::window {

/// pen          lays with laid_as_is()
/// worst_first  as Facts has it: who lies under whom, but for those marked, who lie over all
void draw_from_the_side(const Pen& pen, const plan::FromTheSide& drawing,
                        const std::vector<std::size_t>& worst_first, const Marked& marked);

}  // namespace backrow::window
