#include "report/paragraph.h"

#include <sstream>

namespace backrow::report {

double draw_paragraph(Canvas& canvas, double x, double first_baseline_y, double width_px,
                      double line_px, const std::string& text, const Lettering& lettering) {
    double baseline_y = first_baseline_y;
    std::string line;
    const auto end_line = [&] {
        canvas.text(x, baseline_y, line, lettering, width_px);
        baseline_y += line_px;
    };
    std::istringstream words{text};
    for (std::string word; words >> word;) {
        const std::string longer = line.empty() ? word : line + ' ' + word;
        if (line.empty() || canvas.text_width_px(longer, lettering) <= width_px) {
            line = longer;
            continue;
        }
        end_line();
        line = word;
    }
    if (!line.empty())
        end_line();
    return baseline_y;
}

}  // namespace backrow::report
