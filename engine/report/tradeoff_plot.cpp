#include "report/tradeoff_plot.h"

#include "report/contours.h"
#include "report/tradeoff_style.h"

#include "plan/grade_limit.h"

#include "optics/stops.h"

#include "base/round_numbers.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <optional>
#include <string>
#include <vector>

namespace backrow::report {
namespace {

using namespace tradeoff_style;
using Line = std::vector<Point2>;

constexpr double axis_px = 0.8;
const Lettering tick_lettering{.size_px = 8.5, .bold = false, .colour = ink};
const Lettering faint_lettering{.size_px = 8.5, .bold = false, .colour = faint_ink};
const Lettering axis_lettering{.size_px = 9, .bold = false, .colour = ink};
const Lettering lens_lettering{.size_px = 9, .bold = true, .colour = ink};
const Lettering border_lettering{.size_px = 9, .bold = true, .colour = ink};
const Lettering blur_lettering{.size_px = 7.5, .bold = false, .colour = ink};
const Lettering background_lettering{.size_px = 7.5, .bold = true, .colour = background_ink};

/// From distance and f-number, and from places between the samples, to the page.
class Scales {
public:
    Scales(const Frame& frame, const plan::Tradeoff& answer) : frame_{frame}, answer_{answer} {}

    [[nodiscard]] double x_from_m(double lens_to_mark_m) const {
        const plan::TradeoffRange& range = answer_.range;
        return x_from_share((lens_to_mark_m - range.nearest_m) /
                            (range.farthest_m - range.nearest_m));
    }
    [[nodiscard]] double y_from_f_number(double f_number) const {
        const plan::TradeoffRange& range = answer_.range;
        return y_from_share(std::log(f_number / range.widest_f_number) /
                            std::log(range.narrowest_f_number / range.widest_f_number));
    }
    [[nodiscard]] Point2 page_from_samples(const Point2& place) const {
        return {x_from_share(place.x / static_cast<double>(answer_.samples.distances - 1)),
                y_from_share(place.y / static_cast<double>(answer_.samples.f_numbers - 1))};
    }
    [[nodiscard]] bool holds(double lens_to_mark_m, double f_number) const {
        const plan::TradeoffRange& range = answer_.range;
        return lens_to_mark_m >= range.nearest_m && lens_to_mark_m <= range.farthest_m &&
               f_number >= range.widest_f_number && f_number <= range.narrowest_f_number;
    }

private:
    [[nodiscard]] double x_from_share(double share) const {
        return frame_.left + share * (frame_.right - frame_.left);
    }
    [[nodiscard]] double y_from_share(double share) const {
        return frame_.bottom - share * (frame_.bottom - frame_.top);
    }
    Frame frame_;
    const plan::Tradeoff& answer_;
};

Field field_of(const plan::TradeoffSamples& samples, const std::vector<double>& values) {
    return {.columns = samples.distances, .rows = samples.f_numbers, .values = values};
}

std::vector<Line> on_page(const std::vector<Curve>& curves, const Scales& scales) {
    std::vector<Line> lines;
    for (const Curve& curve : curves) {
        Line line;
        for (const Point2& place : curve.points)
            line.push_back(scales.page_from_samples(place));
        if (curve.closed)
            line.push_back(line.front());
        lines.push_back(std::move(line));
    }
    return lines;
}

/// A line of equal value with its label, ready to be drawn.
struct Labelled {
    Line line{};
    Stroke stroke{};
    std::string words{};
    std::string fewer_words{};  ///< Where the words find no room; empty: none.
    Lettering lettering{};
    double wish = 0.5;  ///< Where along the line the label should be.
    bool is_border = false;
};

void add_lines(std::vector<Labelled>& all, const std::vector<Line>& lines, const Labelled& like) {
    for (const Line& line : lines) {
        Labelled each = like;
        each.line = line;
        // All run from left to right, so that wishes mean the same for each.
        if (each.line.front().x > each.line.back().x)
            std::ranges::reverse(each.line);
        all.push_back(std::move(each));
    }
}

std::string blur_label(double level, const scene::Viewing& viewing) {
    return std::holds_alternative<optics::PrintViewing>(viewing) ? fmt::format("{:.3g}′", level)
                                                                 : fmt::format("{:.2g} px", level);
}

/// Borders first, since labels are placed in this order.
std::vector<Labelled> lines_of(const TradeoffReport& report, const Scales& scales) {
    const plan::TradeoffSamples& samples = report.tradeoff.samples;
    const Field blur = field_of(samples, samples.worst_seen);
    const Field background = field_of(samples, samples.background_percent);
    const double fine = plan::judged_limit(optics::Grade::fine, report.scene.viewing);
    const double crisp = plan::judged_limit(optics::Grade::crisp, report.scene.viewing);

    std::vector<Labelled> lines;
    const auto add = [&](const Field& field, double level, const Labelled& like) {
        add_lines(lines, on_page(level_curves(field, level), scales), like);
    };
    add(blur, fine,
        {.stroke = fine_border,
         .words = "every face fine",
         .fewer_words = "fine",
         .lettering = border_lettering,
         .wish = 0.35,
         .is_border = true});
    add(blur, crisp,
        {.stroke = crisp_border,
         .words = "every face crisp",
         .fewer_words = "crisp",
         .lettering = border_lettering,
         .wish = 0.35,
         .is_border = true});
    for (const double level : blur_levels(report.scene.viewing))
        if (level != fine && level != crisp)
            add(blur, level,
                {.stroke = blur_line,
                 .words = blur_label(level, report.scene.viewing),
                 .lettering = blur_lettering,
                 .wish = 0.7});
    const auto [least, greatest] = std::ranges::minmax(samples.background_percent);
    for (const double level : background_levels(least, greatest))
        add(background, level,
            {.stroke = background_line,
             .words = fmt::format("{:.3g} %", level),
             .lettering = background_lettering,
             .wish = 0.88});
    return lines;
}

// Where there is no room to say what it stands for, a border still is one by its weight; any other
// line would only puzzle.
void draw_line_with_label(Canvas& canvas, const Labelled& labelled, const Frame& frame,
                          std::vector<Obstacle>& taken, const std::vector<Obstacle>& others) {
    for (const std::string& words : {labelled.words, labelled.fewer_words}) {
        if (words.empty())
            continue;
        const double width_px = canvas.text_width_px(words, labelled.lettering);
        const auto place = label_place(labelled.line, width_px, labelled.lettering.size_px,
                                       labelled.wish, frame, taken, others);
        if (!place)
            continue;
        constexpr double air_px = 2.5;
        for (const Line& piece :
             without_stretch(labelled.line, place->along_px - width_px / 2 - air_px,
                             place->along_px + width_px / 2 + air_px))
            canvas.polyline(piece, false, labelled.stroke);
        canvas.text_along(place->middle, place->climb_rad, words, labelled.lettering);
        for (const Obstacle& spot : taken_by(*place, width_px, labelled.lettering.size_px))
            taken.push_back(spot);
        return;
    }
    if (labelled.is_border)
        canvas.polyline(labelled.line, false, labelled.stroke);
}

void draw_lines(Canvas& canvas, const std::vector<Labelled>& lines, const Frame& frame,
                std::vector<Obstacle> taken, const std::vector<Line>& uprights) {
    std::vector<Obstacle> always;
    for (const Line& upright : uprights)
        for (const Obstacle& obstacle : obstacles_of(upright))
            always.push_back(obstacle);
    std::vector<std::vector<Obstacle>> obstacles;
    for (const Labelled& each : lines)
        obstacles.push_back(obstacles_of(each.line));
    for (std::size_t i = 0; i < lines.size(); ++i) {
        std::vector<Obstacle> others = always;
        for (std::size_t j = 0; j < lines.size(); ++j)
            if (j != i)
                others.insert(others.end(), obstacles[j].begin(), obstacles[j].end());
        draw_line_with_label(canvas, lines[i], frame, taken, others);
    }
}

Line rectangle(const Frame& frame) {
    return {{frame.left, frame.top},
            {frame.right, frame.top},
            {frame.right, frame.bottom},
            {frame.left, frame.bottom}};
}

void draw_shades(Canvas& canvas, const Frame& frame, const TradeoffReport& report,
                 const Scales& scales) {
    const plan::TradeoffSamples& samples = report.tradeoff.samples;
    const Field blur = field_of(samples, samples.worst_seen);
    const std::vector<double> levels = blur_levels(report.scene.viewing);
    canvas.fill({rectangle(frame)}, shade(0, levels.size() + 1));
    for (std::size_t i = 0; i < levels.size(); ++i)
        canvas.fill(on_page(region_above(blur, levels[i]), scales),
                    shade(i + 1, levels.size() + 1));
}

void centred_text(Canvas& canvas, double middle_x, double baseline_y, const std::string& text,
                  const Lettering& lettering) {
    const double width_px = canvas.text_width_px(text, lettering);
    canvas.text(middle_x - width_px / 2, baseline_y, text, lettering, width_px + 1);
}

void draw_distance_axis(Canvas& canvas, const Frame& frame, const TradeoffReport& report,
                        const Scales& scales) {
    const plan::TradeoffRange& range = report.tradeoff.range;
    for (const double m : round_numbers(range.nearest_m, range.farthest_m, 10)) {
        const double x = scales.x_from_m(m);
        canvas.line(x, frame.bottom, x, frame.bottom + 4, ink, axis_px);
        centred_text(canvas, x, frame.bottom + 14, fmt::format("{:.4g}", m), tick_lettering);
    }
    centred_text(canvas, (frame.left + frame.right) / 2, frame.bottom + 30,
                 "distance from the lens to the mark, metres", axis_lettering);
}

void draw_aperture_axis(Canvas& canvas, const Frame& frame, const TradeoffReport& report,
                        const Scales& scales) {
    const plan::TradeoffRange& range = report.tradeoff.range;
    std::vector<double> labelled_y;
    const auto label = [&](double f_number, const Lettering& lettering) {
        const double y = scales.y_from_f_number(f_number);
        if (std::ranges::any_of(labelled_y, [&](double other) { return std::abs(other - y) < 10; }))
            return;
        labelled_y.push_back(y);
        const std::string words = f_words(f_number);
        const double width_px = canvas.text_width_px(words, lettering);
        canvas.text(frame.left - 9 - width_px, y + 3, words, lettering, width_px + 1);
    };
    const auto mark = [&](double f_number, double length_px) {
        const double y = scales.y_from_f_number(f_number);
        canvas.line(frame.left - length_px, y, frame.left, y, ink, axis_px);
    };
    for (const double f_number : optics::marked_f_numbers()) {
        if (f_number < range.widest_f_number || f_number > range.narrowest_f_number)
            continue;
        mark(f_number, is_full_stop(f_number) ? 6 : 3);
        if (is_full_stop(f_number))
            label(f_number, tick_lettering);
    }
    for (const double end : {range.widest_f_number, range.narrowest_f_number}) {
        mark(end, 3);
        label(end, faint_lettering);
    }
    canvas.text_along({frame.left - 44, (frame.top + frame.bottom) / 2}, std::numbers::pi / 2,
                      "f-number in third stops, wide open at the bottom", axis_lettering);
}

/// Where along the distances a lens of this focal length frames as now; nothing beyond them.
std::optional<double> x_framing_alike(const plan::TradeoffSamples& samples, double focal_length_mm,
                                      const Scales& scales) {
    const auto& framing_mm = samples.framing_focal_length_mm;
    for (std::size_t i = 0; i + 1 < framing_mm.size(); ++i)
        if (framing_mm[i] <= focal_length_mm && focal_length_mm <= framing_mm[i + 1]) {
            const double share =
                (focal_length_mm - framing_mm[i]) / (framing_mm[i + 1] - framing_mm[i]);
            return scales.page_from_samples({static_cast<double>(i) + share, 0}).x;
        }
    return std::nullopt;
}

void draw_lens_axis(Canvas& canvas, const Frame& frame, const TradeoffReport& report,
                    const Scales& scales) {
    const plan::TradeoffSamples& samples = report.tradeoff.samples;
    std::vector<double> labelled_x;
    const auto label = [&](double x, double focal_length_mm, const Lettering& lettering) {
        if (std::ranges::any_of(labelled_x, [&](double other) { return std::abs(other - x) < 22; }))
            return;
        labelled_x.push_back(x);
        canvas.line(x, frame.top - 4, x, frame.top, ink, axis_px);
        centred_text(canvas, x, frame.top - 8, fmt::format("{:.4g}", focal_length_mm), lettering);
    };
    for (const plan::FramingLens& lens : report.tradeoff.lenses)
        if (lens.lens_to_mark_m &&
            scales.holds(*lens.lens_to_mark_m, report.tradeoff.range.widest_f_number))
            label(scales.x_from_m(*lens.lens_to_mark_m), lens.focal_length_mm, lens_lettering);
    const double shortest_mm = samples.framing_focal_length_mm.front();
    const double longest_mm = samples.framing_focal_length_mm.back();
    if (shortest_mm < longest_mm)
        for (const double focal_length_mm : round_numbers(shortest_mm, longest_mm, 9))
            if (const auto x = x_framing_alike(samples, focal_length_mm, scales))
                label(*x, focal_length_mm, faint_lettering);
    centred_text(canvas, (frame.left + frame.right) / 2, frame.top - 24,
                 "focal length that shows the faces as large as now, mm", axis_lettering);
}

/// Upright, where each lens that is carried frames as now.
std::vector<Line> lens_lines(const Frame& frame, const TradeoffReport& report,
                             const Scales& scales) {
    const plan::Tradeoff& answer = report.tradeoff;
    std::vector<Line> lines;
    for (const plan::FramingLens& lens : answer.lenses)
        if (lens.lens_to_mark_m &&
            scales.holds(*lens.lens_to_mark_m, answer.range.widest_f_number)) {
            const double x = scales.x_from_m(*lens.lens_to_mark_m);
            lines.push_back({{x, frame.top}, {x, frame.bottom}});
        }
    return lines;
}

struct Marks {
    std::optional<Point2> now{};
    std::vector<Point2> lenses{};
};

Marks marks_of(const TradeoffReport& report, const Scales& scales) {
    const plan::Tradeoff& answer = report.tradeoff;
    const scene::Camera& camera = report.scene.camera;
    Marks marks;
    if (scales.holds(camera.lens_to_mark_m, camera.f_number))
        marks.now = {scales.x_from_m(camera.lens_to_mark_m),
                     scales.y_from_f_number(camera.f_number)};
    if (answer.lenses.size() > 1)
        for (const plan::FramingLens& lens : answer.lenses)
            if (lens.fine_from_f_number &&
                scales.holds(*lens.lens_to_mark_m, *lens.fine_from_f_number))
                marks.lenses.push_back({scales.x_from_m(*lens.lens_to_mark_m),
                                        scales.y_from_f_number(*lens.fine_from_f_number)});
    return marks;
}

}  // namespace

void draw_tradeoff_plot(Canvas& canvas, const Frame& frame, const TradeoffReport& report) {
    const Scales scales{frame, report.tradeoff};
    const Marks marks = marks_of(report, scales);
    std::vector<Obstacle> taken;
    constexpr double mark_room_px = 8;
    if (marks.now) {
        taken.push_back({.middle = *marks.now, .radius_px = mark_room_px});
        taken.push_back({.middle = {marks.now->x + 20, marks.now->y}, .radius_px = mark_room_px});
    }
    for (const Point2& mark : marks.lenses)
        taken.push_back({.middle = mark, .radius_px = mark_room_px});

    draw_shades(canvas, frame, report, scales);
    const std::vector<Line> uprights = lens_lines(frame, report, scales);
    for (const Line& upright : uprights)
        canvas.polyline(upright, false, lens_line);
    draw_lines(canvas, lines_of(report, scales), frame, std::move(taken), uprights);
    canvas.polyline(rectangle(frame), true, {.colour = ink, .width_px = axis_px});
    for (const Point2& mark : marks.lenses)
        draw_lens_mark(canvas, mark);
    if (marks.now) {
        const double word_px = canvas.text_width_px("now", border_lettering);
        const Point2& now = *marks.now;
        constexpr double half_height_px = 6;
        const double word_y =
            std::clamp(now.y, frame.top + half_height_px + 1, frame.bottom - half_height_px - 1);
        canvas.fill({rectangle({.left = now.x,
                                .top = word_y - half_height_px,
                                .right = now.x + 12 + word_px,
                                .bottom = word_y + half_height_px})},
                    paper);
        draw_now(canvas, now);
        canvas.text(now.x + 9, word_y + 3.2, "now", border_lettering, word_px + 1);
    }
    draw_distance_axis(canvas, frame, report, scales);
    draw_aperture_axis(canvas, frame, report, scales);
    draw_lens_axis(canvas, frame, report, scales);
}

}  // namespace backrow::report
