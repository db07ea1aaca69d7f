#pragma once

// What is said of a face, in the language of a paper.

#include "papers/words/language.h"
#include "plan/faces/verdict.h"

#include <string>

namespace backrow::papers {

/// "hidden", "cut off", or the grade.
[[nodiscard]] std::string verdict_words(plan::Verdict verdict, const Language& language);

}  // namespace backrow::papers
