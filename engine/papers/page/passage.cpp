#include "papers/page/passage.h"

namespace backrow::papers {

double draw_passage(Page& page, double left, double top, double width_pt, const Passage& passage,
                    const Letters& letters) {
    double y = page.paragraph(left, top, width_pt, passage.heading,
                              {.size_pt = letters.size_pt, .bold = true});
    for (const std::string& sentence : passage.sentences)
        y = page.paragraph(left, y, width_pt, sentence, letters);
    return y;
}

double draw_in_frame(Page& page, double left, double top, double width_pt, const Passage& passage,
                     const Letters& letters) {
    if (passage.sentences.empty())
        return top;
    const double inside_pt = 0.6 * letters.size_pt;
    const double above_pt = 0.6 * inside_pt;
    const double bottom = above_pt + draw_passage(page, left + inside_pt, top + above_pt,
                                                  width_pt - 2 * inside_pt, passage, letters);
    page.canvas().polyline(
        {{left, top}, {left + width_pt, top}, {left + width_pt, bottom}, {left, bottom}}, true,
        {.colour = black, .width_px = 1.4});
    return bottom;
}

}  // namespace backrow::papers
