#include "papers/page/page.h"

#include "report/drawing/verdict_mark.h"

namespace backrow::papers {
namespace {

// DejaVu Sans: how far its letters reach above and below the baseline, of its size.
constexpr double ascent = 0.928;
constexpr double capital = 0.729;

report::Lettering lettering(const Letters& letters) {
    return {.size_px = letters.size_pt, .bold = letters.bold, .colour = black};
}

}  // namespace

double Page::paragraph(double left, double top, double width_pt, const std::string& text,
                       const Letters& letters) {
    const int lines = canvas_.paragraph_lines(width_pt, text, lettering(letters));
    if (lines == 0)
        return top;
    canvas_.paragraph(left, top + ascent * letters.size_pt, width_pt, letters.line_pt(), text,
                      lettering(letters));
    const double bottom = top + lines * letters.line_pt();
    boxes_.push_back(placed(
        {.place = {left, top, left + width_pt, bottom}, .text_pt = letters.size_pt, .text = text}));
    return bottom;
}

void Page::text_ending_at(double right, double top, const std::string& text,
                          const Letters& letters) {
    const double width_pt = text_width_pt(text, letters);
    canvas_.text(right - width_pt, top + ascent * letters.size_pt, text, lettering(letters),
                 width_pt + 1);
    boxes_.push_back(placed({.place = {right - width_pt, top, right, top + letters.line_pt()},
                             .text_pt = letters.size_pt,
                             .text = text}));
}

void Page::label(const Point2& middle, const std::string& text, const Letters& letters) {
    const double half_pt = text_width_pt(text, letters) / 2;
    const double half_capital_pt = capital * letters.size_pt / 2;
    canvas_.text(middle.x - half_pt, middle.y + half_capital_pt, text, lettering(letters),
                 2 * half_pt + 1);
    labels_.push_back(placed({.place = {middle.x - half_pt, middle.y - half_capital_pt,
                                        middle.x + half_pt, middle.y + half_capital_pt},
                              .text_pt = letters.size_pt,
                              .text = text}));
}

int Page::lines(double width_pt, const std::string& text, const Letters& letters) {
    return canvas_.paragraph_lines(width_pt, text, lettering(letters));
}

double Page::text_width_pt(const std::string& text, const Letters& letters) {
    return canvas_.text_width_px(text, lettering(letters));
}

void Page::sign(double left, double top, plan::Verdict verdict, double size) {
    report::draw_verdict_mark(canvas_, left, top, verdict, size, black);
    boxes_.push_back(placed({.place = {left, top, left + size * report::verdict_mark_width_px,
                                       top + size * report::verdict_mark_height_px}}));
}

void Page::picture(const Image<Rgb8>& image, const report::Frame& place) {
    canvas_.picture(image, place.left, place.top, place.right - place.left,
                    place.bottom - place.top);
    boxes_.push_back(placed({.place = place}));
}

void Page::drawing(const report::Frame& place) {
    boxes_.push_back(placed({.place = place}));
}

void Page::turn_about(const Point2& middle) {
    canvas_.turn_about(middle);
    turned_about_ = middle;
}

void Page::turn_no_more() {
    canvas_.turn_no_more();
    turned_about_.reset();
}

Box Page::placed(Box box) const {
    if (turned_about_) {
        const auto& [x, y] = *turned_about_;
        const report::Frame& place = box.place;
        box.place = {2 * x - place.right, 2 * y - place.bottom, 2 * x - place.left,
                     2 * y - place.top};
    }
    return box;
}

}  // namespace backrow::papers
