#pragma once

// Whether the exposure suits the light, in words.

#include "plan/faces/metering.h"
#include "scene/scene.h"

#include <string>

namespace backrow::report {

/// "1/100 s at ISO 250"; "1/8000 s at ISO 50 with a grey filter of 2 stops".
[[nodiscard]] std::string setting_words(const optics::ExposureSetting& setting);

/// "The present setting is 3⅔ stops over for EV 12."; empty where it suits the light.
[[nodiscard]] std::string present_exposure_words(const plan::Metering& present);

/// Two lines: the setting, what it is off by and what would mend it; and the longest shutters by
/// hand and for people to hold still. Each ends with a line break.
[[nodiscard]] std::string exposure_lines(const scene::Camera& camera,
                                         const plan::Metering& metering);

}  // namespace backrow::report
