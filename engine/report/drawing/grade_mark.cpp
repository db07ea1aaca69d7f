#include "report/drawing/grade_mark.h"

namespace backrow::report {

Rgb8 grade_colour(optics::Grade grade) noexcept {
    switch (grade) {
    case optics::Grade::crisp:
        return {0, 158, 115};  // bluish green
    case optics::Grade::fine:
        return {86, 180, 233};  // sky blue
    case optics::Grade::soft:
        return {230, 159, 0};  // orange
    case optics::Grade::lost:
        break;
    }
    return {213, 94, 0};  // vermillion
}

void draw_grade_mark(Canvas& canvas, double left, double top, optics::Grade grade, double size) {
    const Rgb8 colour = grade_colour(grade);
    const double right = left + size * grade_mark_width_px;
    const double middle_x = left + size * grade_mark_width_px / 2;
    const double middle_y = top + size * grade_mark_height_px / 2;
    const double line_px = size * 1.8;
    const double bulge_px = size * 5.5;

    if (grade == optics::Grade::lost) {
        const double corner_y = top + size * 4;
        canvas.lid(left + size, right - size, corner_y, bulge_px, colour, line_px);
        canvas.line(middle_x, corner_y + size * 6, middle_x, corner_y + size * 9.5, colour,
                    line_px);
        for (const double side : {-size, size})
            canvas.line(middle_x + side * 6, corner_y + size * 4.5, middle_x + side * 8,
                        corner_y + size * 7.5, colour, line_px);
        return;
    }
    canvas.almond(left + size, right - size, middle_y, bulge_px, bulge_px, colour, line_px);
    if (grade == optics::Grade::crisp)
        canvas.disc(middle_x, middle_y, size * 4.2, colour);
    if (grade == optics::Grade::fine)
        canvas.disc(middle_x, middle_y, size * 2, colour);
}

}  // namespace backrow::report
