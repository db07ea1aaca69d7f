#pragma once

// What a card says, in its language.

#include "papers/card/card_facts.h"
#include "papers/page/passage.h"
#include "papers/words/language.h"
#include "papers/words/quantities.h"

#include "plan/faces/verdict.h"

#include "base/length_words.h"

#include <string>
#include <vector>

namespace backrow::papers {

/// Somebody's line in the order of names.
struct NameLine {
    std::string number;  ///< As on the plan.
    std::string name;
    std::string room;  ///< "40/89": centimetres (inches) towards the camera and away from it.
    std::string verdict;
    plan::Verdict sign = plan::Verdict::crisp;
};

struct NamesOfRow {
    std::string heading;
    std::vector<NameLine> people;  ///< From picture left to right.
};

struct CardWords {
    std::string title;
    std::string group;     ///< How many, in how many rows.
    std::string settings;  ///< What is set on lens and camera.
    std::vector<std::string> setting_notes;
    Passage mind;  ///< Without sentences where there is nothing to mind.
    Passage pacing;
    std::string plan_caption;
    std::string side_caption;
    std::string names_heading;
    std::vector<NamesOfRow> names;   ///< The front row first.
    std::vector<Passage> otherwise;  ///< What if.
    std::vector<Passage> at_the_shoot;
};

[[nodiscard]] CardWords card_words(const CardFacts& facts, const Language& language, Units units);

/// Told where the card has no room for everybody.
[[nodiscard]] std::string more_people_words(std::size_t count, const Language& language);

}  // namespace backrow::papers
