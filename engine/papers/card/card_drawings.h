#pragma once

// The drawings of a card: the scene from above, and its heads from the side.

#include "papers/card/card_facts.h"
#include "papers/card/card_words.h"
#include "papers/page/page.h"

namespace backrow::papers {

struct DrawnCard {
    const CardFacts& facts;
    const Language& language;
    Units units = Units::metric;
    double text_pt = least_text_pt;
};

/// Everybody with the number of their line in the order of names, where all numbers have room; the
/// lens, what the frame takes in, the plane of focus, where faces are fine, a ruler.
void draw_plan(Page& page, const report::Frame& area, const DrawnCard& card);

/// Heads, plane of focus, where faces are fine.
void draw_side(Page& page, const report::Frame& area, const DrawnCard& card);

/// How high the scene from above would like to be drawn at this width.
[[nodiscard]] double plan_height_pt(const CardFacts& facts, double width_pt);

}  // namespace backrow::papers
