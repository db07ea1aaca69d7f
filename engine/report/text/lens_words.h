#pragma once

// What to mind of the lens that an answer was reckoned with.

#include "scene/scene.h"

#include <optional>
#include <string>

namespace backrow::report {

/// Where the scene trusts a perfect lens too far (plan::trusts_perfect_lens()): "Reckoned with a
/// perfect lens; few are so at f/1.4: …".
[[nodiscard]] std::optional<std::string> perfect_lens_sentence(const scene::Scene& scene);

/// The same with a line break; empty where there is nothing to mind.
[[nodiscard]] std::string perfect_lens_line(const std::optional<std::string>& sentence);

/// Of what is told at several openings, the widest of which this is: "Reckoned with a perfect lens;
/// few are so at f/1.4."; empty where none is trusted too far.
[[nodiscard]] std::string perfect_lens_note(const scene::Scene& scene, double widest_f_number);

/// For a window, where nothing is typed: "reckoned with a perfect lens, and few are so at f/1.2";
/// empty where there is nothing to mind.
[[nodiscard]] std::string perfect_lens_words(const scene::Scene& scene);

}  // namespace backrow::report
