#pragma once

// What is different between two states of a scene, as one would say it: "f/2 → f/2.8", "Priya 30 cm
// forward".

#include "scene/scene.h"

#include <string>
#include <vector>

namespace backrow::rehearsal {

/// Everything that hands change: camera, lens, focus and viewing first, then who came and went,
/// then people; those who took the same step are told together. Centimetres, degrees; what is
/// smaller is no difference, nor are clothes and surroundings.
[[nodiscard]] std::vector<std::string> differences(const scene::Scene& before,
                                                   const scene::Scene& after);

/// "on Bram", "evenly", "at 4.41 m", "at 0.00 m across, 1.60 m up, 0.50 m back".
[[nodiscard]] std::string focus_words(const scene::Focus& focus);

}  // namespace backrow::rehearsal
