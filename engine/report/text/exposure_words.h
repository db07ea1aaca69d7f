#pragma once

// Whether the exposure suits the light, in words.

#include "plan/faces/metering.h"
#include "scene/scene.h"

#include <string>

namespace backrow::report {

/// Two lines: the setting, what it is off by and what would mend it; and the longest shutters by
/// hand and for people to hold still. Each ends with a line break.
[[nodiscard]] std::string exposure_lines(const scene::Camera& camera,
                                         const plan::Metering& metering);

}  // namespace backrow::report
