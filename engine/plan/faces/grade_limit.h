#pragma once

// Grades of blur, as scene/grade_limit.h has them, for the answers of this layer.

#include "scene/grade_limit.h"

namespace backrow::plan {

using scene::blur_limit_mm;
using scene::grade_of;
using scene::judged_blur;
using scene::judged_limit;

}  // namespace backrow::plan
