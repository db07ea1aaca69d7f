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

}  // namespace backrow::report
