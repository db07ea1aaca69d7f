#include "report/drawing/paragraph.h"

#include <algorithm>
#include <sstream>
#include <vector>

namespace backrow::report {
namespace {

bool is_number(const std::string& word) {
    return std::ranges::all_of(word, [](char c) { return (c >= '0' && c <= '9') || c == '.'; });
}

/// What is not to be broken: words, and numbers with what they count.
std::vector<std::string> pieces_of(const std::string& text) {
    std::vector<std::string> pieces;
    bool after_number = false;
    std::istringstream words{text};
    for (std::string word; words >> word;) {
        if (after_number)
            pieces.back() += ' ' + word;
        else
            pieces.push_back(word);
        after_number = !after_number && is_number(word);
    }
    return pieces;
}

}  // namespace

double draw_paragraph(Canvas& canvas, double x, double first_baseline_y, double width_px,
                      double line_px, const std::string& text, const Lettering& lettering) {
    double baseline_y = first_baseline_y;
    std::string line;
    const auto end_line = [&] {
        canvas.text(x, baseline_y, line, lettering, width_px);
        baseline_y += line_px;
    };
    for (const std::string& piece : pieces_of(text)) {
        const std::string longer = line.empty() ? piece : line + ' ' + piece;
        if (line.empty() || canvas.text_width_px(longer, lettering) <= width_px) {
            line = longer;
            continue;
        }
        end_line();
        line = piece;
    }
    if (!line.empty())
        end_line();
    return baseline_y;
}

}  // namespace backrow::report
