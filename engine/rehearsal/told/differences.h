#pragma once

// What is different between two states of a scene, as one would say it: "f/2 → f/2.8", "Priya 30 cm
// forward".

#include "scene/scene.h"

#include "base/length_words.h"

#include <string>
#include <vector>

namespace backrow::rehearsal {

/// Everything that hands change: camera, lens, focus and viewing first, then who came and went,
/// then people; those who took the same step are told together; then place and light. Centimetres,
/// degrees; what is smaller is no difference, nor are clothes.
[[nodiscard]] std::vector<std::string> differences(const scene::Scene& before,
                                                   const scene::Scene& after, Units units);

/// Whether both are one scene in everything that an answer about it rests on: no differences(), and
/// nothing else that a scene file says is another: surroundings, light, odds, what people wear and
/// do. Where files name things does not count.
[[nodiscard]] bool same_scene(const scene::Scene& one, const scene::Scene& other);

/// "on Bram", "evenly", "at 4.41 m", "at 0.00 m across, 1.60 m up, 0.50 m back".
[[nodiscard]] std::string focus_words(const scene::Focus& focus, Units units);

/// "in an album", "pixel by pixel", "60 cm long from 80 cm".
[[nodiscard]] std::string viewing_words(const scene::Viewing& viewing, Units units);

}  // namespace backrow::rehearsal
