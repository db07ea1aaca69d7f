#pragma once

// Advice as text to read at the shoot, JSON and CSV to work on.

#include "plan/advice/advice.h"
#include "scene/scene.h"

#include "base/length_words.h"

#include <optional>
#include <string>
#include <vector>

namespace backrow::report {

struct AdviceReport {
    scene::Scene scene;  ///< As it is.
    plan::AdviceWanted wanted;
    plan::Advice advice;
    Units units = Units::metric;  ///< Of the text.
};

/// Of the first answer that trusts a perfect lens too far (lens_words.h).
[[nodiscard]] std::optional<std::string> lens_note(const plan::Advice& advice);

/// A headline for each answer, then few short lines. Where nothing is possible: what comes nearest
/// and what would help. Ends with a line break.
[[nodiscard]] std::string advice_text(const AdviceReport& report);

/// One JSON object with the documented keys; null for what has no number. `set` holds the overrides
/// that turn the scene into the answer's. Ends with a line break.
[[nodiscard]] std::string advice_json(const AdviceReport& report);

/// A heading and one record an answer; moves, grades and margins as "name value" with semicolons
/// between. The nearest miss is the one record with `possible` false.
[[nodiscard]] std::string advice_csv(const AdviceReport& report);

}  // namespace backrow::report
