#pragma once

// How the finished picture is looked at, in words.

#include "scene/scene.h"

#include "optics/blur/viewing.h"

#include "base/length_words.h"

#include <string>

namespace backrow::report {

/// "in an album, 30 cm long and seen from 40 cm", "60 cm long and seen from 80 cm", "pixel by
/// pixel".
[[nodiscard]] std::string viewing_words(const scene::Viewing& viewing, Units units = Units::metric);

/// What earns which grade, in one sentence; ends with a line break.
[[nodiscard]] std::string grades_line(const scene::Viewing& viewing, Units units = Units::metric);

/// "arcmin" or "px".
[[nodiscard]] std::string unit_words(optics::BlurUnit unit);

}  // namespace backrow::report
