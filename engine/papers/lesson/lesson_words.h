#pragma once

// What a lesson says, in its language.

#include "papers/lesson/lesson_facts.h"
#include "papers/words/language.h"
#include "papers/words/quantities.h"
#include "report/strip/strip_contents.h"

#include "plan/faces/verdict.h"

#include "base/length_words.h"

#include <optional>
#include <string>
#include <vector>

namespace backrow::papers {

/// Below the pictures of one distance and aperture.
struct LessonCell {
    std::optional<plan::Verdict> sign{};  ///< Of the least sharp face.
    std::string least_sharp{};            ///< Who, and how sharp.
    std::string blur{};                   ///< That face's.
    std::string sharp{};                  ///< Who is fine.
};

struct LessonHead {
    std::string title;
    std::string note;
};

struct LessonWords {
    std::string title;
    std::string group;
    std::vector<LessonHead> apertures;  ///< From wide to narrow.
    std::vector<LessonHead> distances;  ///< From near to far.
    std::vector<LessonCell> cells;      ///< All apertures of the first distance, then of the next.
    std::string cells_told;
    std::string theory_heading;
    std::vector<std::string> theory;
    std::string mind_heading;
    std::vector<std::string> mind;  ///< Empty where there is nothing to mind.
    std::string exercises_heading;
    std::vector<std::string> exercises;
    std::string answers_heading;
    std::vector<std::string> answers;  ///< One for each exercise.
};

/// pictures  of every frame of the strip, for what was measured in them
[[nodiscard]] LessonWords lesson_words(const LessonFacts& facts,
                                       const report::StripPictures& pictures,
                                       const Language& language, Units units);

}  // namespace backrow::papers
