#pragma once

// The card for the shoot: one page of black on white that is read in the sun, with everything that
// has been decided at the desk.

#include "papers/card/card_facts.h"
#include "papers/page/page.h"
#include "papers/page/paper.h"
#include "papers/words/language.h"
#include "report/drawing/page_file.h"

#include "base/image.h"
#include "base/length_words.h"

namespace backrow::papers {

struct CardChoices {
    Paper paper = Paper::a5;
    Units units = Units::metric;
    Language language{};
};

/// One page. Its letters are as large as fit, to 11 points; what is left of the page goes to the
/// drawings. Where letters of 7 points do not fit, it is set more densely, then the picture
/// goes, then the drawings, then the end of the order of names, and how many are left out is told.
///
/// picture  a small preview; empty: the card has none
[[nodiscard]] Page card(const CardFacts& facts, const Image<Rgb8>& picture,
                        const CardChoices& choices);

[[nodiscard]] Bytes card_bytes(const CardFacts& facts, const Image<Rgb8>& picture,
                               const CardChoices& choices, report::PageKind kind);

}  // namespace backrow::papers
