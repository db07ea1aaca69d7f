#include "report/strip/strip_sheet.h"

#include "report/drawing/canvas.h"
#include "report/drawing/verdict_mark.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace backrow::report {
namespace {

// Light, because a strip is printed as often as it is shown.
constexpr Rgb8 paper{247, 246, 243};
constexpr Rgb8 ink{34, 34, 36};
constexpr Rgb8 faint_ink{104, 104, 108};
constexpr Rgb8 outline_light{255, 255, 255};
constexpr Rgb8 outline_dark{30, 30, 30};

struct Line {
    double baseline;
    double size;
    bool bold = false;
    Rgb8 colour = ink;
};

/// Letters lines of words into a box, in lengths of the usual size of type.
class Words {
public:
    Words(const Box& box, double type)
        : canvas_{box.width, box.height, paper}, box_{box}, type_{type} {}

    void letter(const std::string& words, const Line& line, double indent = 0) {
        canvas_.text(type_ * indent, type_ * line.baseline, words,
                     {.size_px = type_ * line.size, .bold = line.bold, .colour = line.colour},
                     box_.width - type_ * indent);
    }
    void mark(plan::Verdict verdict, double top) {
        draw_verdict_mark(canvas_, 0, type_ * top, verdict, type_);
    }
    void copy_into(Image<Rgb8>& sheet) const { canvas_.copy_into(sheet, box_.left, box_.top); }

private:
    Canvas canvas_;
    Box box_;
    double type_;
};

void place(Image<Rgb8>& sheet, const Image<Rgb8>& picture, const Box& box) {
    for (int y = 0; y < std::min(picture.height_px(), box.height); ++y)
        std::copy_n(&picture.at(0, y), std::min(picture.width_px(), box.width),
                    &sheet.at(box.left, box.top + y));
}

/// A hollow rectangle of whole pixels, cut off where it leaves the box.
void outline(Image<Rgb8>& sheet, const Box& within, const Box& hollow, int thick, Rgb8 colour) {
    for (int y = hollow.top - thick; y < hollow.top + hollow.height + thick; ++y)
        for (int x = hollow.left - thick; x < hollow.left + hollow.width + thick; ++x) {
            const bool inside = x >= hollow.left && x < hollow.left + hollow.width &&
                                y >= hollow.top && y < hollow.top + hollow.height;
            if (!inside && x >= 0 && x < within.width && y >= 0 && y < within.height)
                sheet.at(within.left + x, within.top + y) = colour;
        }
}

/// Where in the frame its face is.
void show_face_place(Image<Rgb8>& sheet, const StripPicture& picture, const Box& frame,
                     double type) {
    const auto share = [](double part, int length) {
        return static_cast<int>(std::lround(std::clamp(part, 0.0, 1.0) * length));
    };
    const int thick = std::max(1, static_cast<int>(std::lround(type)));
    const int left = share(picture.face_left, frame.width);
    const int top = share(picture.face_top, frame.height);
    const Box hollow{left, top, share(picture.face_right, frame.width) - left,
                     share(picture.face_bottom, frame.height) - top};
    outline(sheet, frame, hollow, 2 * thick, outline_dark);
    outline(sheet, frame, hollow, thick, outline_light);
}

void draw_cell(Image<Rgb8>& sheet, const StripPicture& picture, const StripCell& cell,
               double type) {
    place(sheet, picture.whole, cell.whole);
    show_face_place(sheet, picture, cell.whole, type);
    place(sheet, picture.face, cell.face);

    Words caption{cell.caption, type};
    caption.letter(picture.setting, {.baseline = 21, .size = 13.5, .bold = true});
    caption.mark(picture.mark, 27.5);
    caption.letter(picture.verdict, {.baseline = 39, .size = 13}, verdict_mark_width_px + 6);
    caption.letter(picture.note, {.baseline = 57, .size = 12, .colour = faint_ink});
    caption.letter(picture.complaint, {.baseline = 73, .size = 12});
    caption.copy_into(sheet);
}

}  // namespace

Image<Rgb8> strip_sheet(const StripSheet& contents, const StripLayout& layout) {
    Image<Rgb8> sheet(layout.width_px, layout.height_px, paper);
    const double type = layout.type;

    Words title{layout.title, type};
    title.letter(contents.title, {.baseline = 40, .size = 21, .bold = true});
    title.letter(contents.below_title, {.baseline = 61, .size = 13, .colour = faint_ink});
    title.copy_into(sheet);

    for (std::size_t i = 0; i < layout.column_heads.size(); ++i) {
        Words head{layout.column_heads[i], type};
        head.letter(contents.columns[i].title, {.baseline = 24, .size = 18, .bold = true});
        head.letter(contents.columns[i].note, {.baseline = 42, .size = 12, .colour = faint_ink});
        head.copy_into(sheet);
    }
    for (std::size_t j = 0; j < layout.row_heads.size(); ++j) {
        Words head{layout.row_heads[j], type};
        head.letter(contents.rows[j].title, {.baseline = 16, .size = 18, .bold = true});
        head.letter(contents.rows[j].note, {.baseline = 34, .size = 12, .colour = faint_ink});
        head.copy_into(sheet);
    }
    for (std::size_t i = 0; i < layout.cells.size(); ++i)
        draw_cell(sheet, contents.pictures[i], layout.cells[i], type);

    Words foot{layout.foot, type};
    double baseline = 12;
    for (const std::string& line : contents.foot) {
        foot.letter(line, {.baseline = baseline, .size = 12, .colour = faint_ink});
        baseline += 17;
    }
    foot.copy_into(sheet);
    return sheet;
}

}  // namespace backrow::report
