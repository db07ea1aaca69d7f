#pragma once

// A heading and what stands below it.

#include "papers/page/page.h"

#include <string>
#include <vector>

namespace backrow::papers {

struct Passage {
    std::string heading;
    std::vector<std::string> sentences;  ///< A paragraph each.
};

/// Returns how far down it reaches.
double draw_passage(Page& page, double left, double top, double width_pt, const Passage& passage,
                    const Letters& letters);

/// The same in a frame, not to be overlooked; where it says nothing there is none.
double draw_in_frame(Page& page, double left, double top, double width_pt, const Passage& passage,
                     const Letters& letters);

}  // namespace backrow::papers
