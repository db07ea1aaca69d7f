#include "report/drawing/paragraph.h"

#include <algorithm>
#include <sstream>

namespace backrow::report {
namespace {

bool is_number(const std::string& word) {
    return std::ranges::all_of(word, [](char c) { return (c >= '0' && c <= '9') || c == '.'; });
}

/// With spaces that do not break between numbers and what they count.
std::string with_numbers_whole(const std::string& text) {
    std::string joined;
    bool after_number = false;
    std::istringstream words{text};
    for (std::string word; words >> word;) {
        if (!joined.empty())
            joined += after_number ? "\u00a0" : " ";
        joined += word;
        after_number = !after_number && is_number(word);
    }
    return joined;
}

}  // namespace

double draw_paragraph(Canvas& canvas, double x, double first_baseline_y, double width_px,
                      double line_px, const std::string& text, const Lettering& lettering) {
    return canvas.paragraph(x, first_baseline_y, width_px, line_px, with_numbers_whole(text),
                            lettering);
}

}  // namespace backrow::report
