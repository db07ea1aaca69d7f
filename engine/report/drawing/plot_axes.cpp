#include "report/drawing/plot_axes.h"

#include "report/drawing/page_ink.h"

#include "base/round_numbers.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <numbers>

namespace backrow::report {
namespace {

constexpr double line_px = 0.8;
constexpr double grid_px = 0.6;
const Lettering mark_lettering{.size_px = 8.5, .bold = false, .colour = ink};
const Lettering words_lettering{.size_px = 9, .bold = false, .colour = ink};

std::vector<double> marks_of(const PlotScale& scale) {
    return round_numbers(std::min(scale.from, scale.to), std::max(scale.from, scale.to),
                         scale.most_marks);
}

std::string lettered(const PlotScale& scale, double mark) {
    return scale.mark_words ? scale.mark_words(mark) : fmt::format("{:.7g}", mark + 0.0);
}

}  // namespace

Point2 PlotPlaces::at(double x, double y) const noexcept {
    return {frame.left + (x - x_from) / (x_to - x_from) * (frame.right - frame.left),
            frame.bottom - (y - y_from) / (y_to - y_from) * (frame.bottom - frame.top)};
}

PlotPlaces draw_axes(Canvas& canvas, const Frame& frame, const PlotScale& across,
                     const PlotScale& up) {
    const PlotPlaces places{frame, across.from, across.to, up.from, up.to};
    double widest_px = 0;
    for (const double mark : marks_of(across)) {
        const double x = places.at(mark, up.from).x;
        canvas.line(x, frame.top, x, frame.bottom, grid_ink, grid_px);
        centred_text(canvas, x, frame.bottom + 12, lettered(across, mark), mark_lettering);
    }
    for (const double mark : marks_of(up)) {
        const double y = places.at(across.from, mark).y;
        canvas.line(frame.left, y, frame.right, y, grid_ink, grid_px);
        const std::string words = lettered(up, mark);
        const double width_px = canvas.text_width_px(words, mark_lettering);
        widest_px = std::max(widest_px, width_px);
        canvas.text(frame.left - 5 - width_px, y + 3, words, mark_lettering, width_px + 1);
    }
    canvas.polyline(outline(frame), true, {.colour = ink, .width_px = line_px});
    centred_text(canvas, (frame.left + frame.right) / 2, frame.bottom + 25, across.words,
                 words_lettering);
    canvas.text_along({frame.left - widest_px - 14, (frame.top + frame.bottom) / 2},
                      std::numbers::pi / 2, up.words, words_lettering);
    return places;
}

void draw_curve(Canvas& canvas, const PlotPlaces& places, const std::vector<Point2>& values,
                const Stroke& stroke) {
    const double low = std::min(places.y_from, places.y_to);
    const double high = std::max(places.y_from, places.y_to);
    std::vector<Point2> drawn;
    const auto add = [&](const Point2& value) { drawn.push_back(places.at(value.x, value.y)); };
    const auto end_stretch = [&] {
        if (drawn.size() > 1)
            canvas.polyline(drawn, false, stroke);
        drawn.clear();
    };
    const auto lies_within = [&](const Point2& value) { return value.y >= low && value.y <= high; };
    for (std::size_t i = 0; i < values.size(); ++i) {
        // Where the line leaves the frame or comes back.
        if (i > 0 && lies_within(values[i - 1]) != lies_within(values[i])) {
            const Point2 &from = values[i - 1], &to = values[i];
            const double edge = std::max(from.y, to.y) > high ? high : low;
            const double share = (edge - from.y) / (to.y - from.y);
            add({from.x + share * (to.x - from.x), edge});
        }
        if (lies_within(values[i]))
            add(values[i]);
        else
            end_stretch();
    }
    end_stretch();
}

void centred_text(Canvas& canvas, double middle_x, double baseline_y, const std::string& text,
                  const Lettering& lettering) {
    const double width_px = canvas.text_width_px(text, lettering);
    canvas.text(middle_x - width_px / 2, baseline_y, text, lettering, width_px + 1);
}

}  // namespace backrow::report
