#include "report/strip/strip_sheet.h"

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

constexpr double smallest_size = 12;  // Of letters.

struct Line {
    double baseline;
    double size;
    bool bold = false;
    Rgb8 colour = ink;
};

/// Letters lines of words into a box, in lengths of the usual size of type.
class Words {
public:
    Words(Canvas& sheet, const Box& box, double type) : sheet_{sheet}, box_{box}, type_{type} {}

    void letter(const std::string& words, const Line& line, double indent = 0) {
        sheet_.text(box_.left + type_ * indent, box_.top + type_ * line.baseline, words,
                    {.size_px = type_ * line.size, .bold = line.bold, .colour = line.colour},
                    box_.width - type_ * indent);
    }
    void mark(plan::Verdict verdict, double top) {
        draw_verdict_mark(sheet_, box_.left, box_.top + type_ * top, verdict, type_);
    }

private:
    Canvas& sheet_;
    Box box_;
    double type_;
};

void place(Canvas& sheet, const Image<Rgb8>& picture, const Box& box) {
    sheet.picture(picture, box.left, box.top, picture.width_px(), picture.height_px());
}

/// A hollow rectangle of whole pixels.
void outline(Canvas& sheet, const Box& hollow, int thick, Rgb8 colour) {
    const auto corners = [&](int out) {
        const double left = hollow.left - out, right = hollow.left + hollow.width + out;
        const double top = hollow.top - out, bottom = hollow.top + hollow.height + out;
        return std::vector<Point2>{{left, top}, {right, top}, {right, bottom}, {left, bottom}};
    };
    sheet.fill({corners(thick), corners(0)}, colour);
}

/// Where in the frame its face is, cut off where that leaves it.
void show_face_place(Canvas& sheet, const StripPicture& picture, const Box& frame, double type) {
    const auto share = [](double part, int length) {
        return static_cast<int>(std::lround(std::clamp(part, 0.0, 1.0) * length));
    };
    const int thick = std::max(1, static_cast<int>(std::lround(type)));
    const int left = share(picture.face_left, frame.width);
    const int top = share(picture.face_top, frame.height);
    const Box hollow{frame.left + left, frame.top + top,
                     share(picture.face_right, frame.width) - left,
                     share(picture.face_bottom, frame.height) - top};
    sheet.clip_to(frame.left, frame.top, frame.width, frame.height);
    outline(sheet, hollow, 2 * thick, outline_dark);
    outline(sheet, hollow, thick, outline_light);
    sheet.clip_no_more();
}

void draw_cell(Canvas& sheet, const StripPicture& picture, const StripCell& cell, double type) {
    place(sheet, picture.whole, cell.whole);
    show_face_place(sheet, picture, cell.whole, type);
    place(sheet, picture.face, cell.face);

    Words caption{sheet, cell.caption, type};
    caption.letter(picture.setting, {.baseline = 21, .size = 13.5, .bold = true});
    caption.mark(picture.mark, 27.5);
    caption.letter(picture.verdict, {.baseline = 39, .size = 13}, verdict_mark_width_px + 6);
    caption.letter(picture.note, {.baseline = 57, .size = smallest_size, .colour = faint_ink});
    caption.letter(picture.complaint, {.baseline = 73, .size = smallest_size});
}

}  // namespace

Canvas strip_sheet(const StripSheet& contents, const StripLayout& layout) {
    Canvas sheet{layout.width_px, layout.height_px, paper};
    const double type = layout.type;

    Words title{sheet, layout.title, type};
    title.letter(contents.title, {.baseline = 40, .size = 21, .bold = true});
    title.letter(contents.below_title, {.baseline = 61, .size = 13, .colour = faint_ink});

    const auto head = [&](const Box& box, const StripHead& words, double title_baseline,
                          double note_baseline) {
        Words letters{sheet, box, type};
        letters.letter(words.title, {.baseline = title_baseline, .size = 18, .bold = true});
        letters.letter(words.note,
                       {.baseline = note_baseline, .size = smallest_size, .colour = faint_ink});
    };
    for (std::size_t i = 0; i < layout.column_heads.size(); ++i)
        head(layout.column_heads[i], contents.columns[i], 24, 42);
    for (std::size_t j = 0; j < layout.row_heads.size(); ++j)
        head(layout.row_heads[j], contents.rows[j], 16, 34);
    for (std::size_t i = 0; i < layout.cells.size(); ++i)
        draw_cell(sheet, contents.pictures[i], layout.cells[i], type);

    Words foot{sheet, layout.foot, type};
    double baseline = 12;
    for (const std::string& line : contents.foot) {
        foot.letter(line, {.baseline = baseline, .size = smallest_size, .colour = faint_ink});
        baseline += 17;
    }
    return sheet;
}

Bytes strip_bytes(const StripSheet& contents, const StripLayout& layout, PageKind kind) {
    const Canvas sheet = strip_sheet(contents, layout);
    if (kind != PageKind::pdf)
        return png_bytes(sheet.pixels(1));
    return sheet.pdf_bytes(contents.title, least_text_pt / (smallest_size * layout.type));
}

}  // namespace backrow::report
