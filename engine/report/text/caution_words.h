#pragma once

// What to mind, below an answer.

#include "plan/comparing/cautions.h"

#include <string>
#include <vector>

namespace backrow::report {

/// A line each, "Mind: …", after an empty one; empty where there is nothing to mind.
[[nodiscard]] std::string caution_lines(const std::vector<plan::Caution>& cautions);

/// As JSON and CSV have them.
[[nodiscard]] std::vector<std::string>
caution_sentences(const std::vector<plan::Caution>& cautions);

}  // namespace backrow::report
