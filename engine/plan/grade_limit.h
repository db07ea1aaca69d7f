#pragma once

// The largest blur that still earns a grade, as scene/grade_limit.h has it, for the answers of this
// layer.

#include "scene/grade_limit.h"

namespace backrow::plan {

using scene::blur_limit_mm;

}  // namespace backrow::plan
