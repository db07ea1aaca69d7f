#include "report/tradeoff/tradeoff_axes.h"

#include "report/drawing/plot_axes.h"
#include "report/tradeoff/tradeoff_style.h"

#include "optics/exposure/stops.h"

#include "base/round_numbers.h"
#include "base/units.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>
#include <vector>

namespace backrow::report {
namespace {

using namespace tradeoff_style;

const Lettering tick_lettering{.size_px = 8.5, .bold = false, .colour = ink};
const Lettering faint_lettering{.size_px = 8.5, .bold = false, .colour = faint_ink};
const Lettering axis_lettering{.size_px = 9, .bold = false, .colour = ink};
const Lettering lens_lettering{.size_px = 9, .bold = true, .colour = ink};

/// As short as it can be, without an end in noughts or nines that only rounding brought.
std::string mark_words(double number) {
    return fmt::format("{:.7g}", number);
}

double middle_x(const Frame& frame) {
    return (frame.left + frame.right) / 2;
}

/// Places along an axis that bear words already.
class Labelled {
public:
    explicit Labelled(double apart_px) : apart_px_{apart_px} {}

    /// Whether there is room; if so, it is taken.
    bool take(double place_px) {
        if (std::ranges::any_of(taken_px_, [&](double other_px) {
                return std::abs(other_px - place_px) < apart_px_;
            }))
            return false;
        taken_px_.push_back(place_px);
        return true;
    }

private:
    double apart_px_;
    std::vector<double> taken_px_;
};

void draw_distance_axis(Canvas& canvas, const TradeoffReport& report,
                        const TradeoffScales& scales) {
    const plan::TradeoffRange& range = report.tradeoff.range;
    const double bottom = scales.frame().bottom;
    // Round numbers of the unit that the axis is read in.
    const bool metric = report.units == Units::metric;
    const double unit_m = metric ? 1.0 : m_from_ft(1);
    for (const double mark :
         round_numbers(range.nearest_m / unit_m, range.farthest_m / unit_m, 10)) {
        const double x = scales.x_from_m(mark * unit_m);
        canvas.line(x, bottom, x, bottom + 4, ink, axis_px);
        centred_text(canvas, x, bottom + 14, mark_words(mark), tick_lettering);
    }
    centred_text(canvas, middle_x(scales.frame()), bottom + 30,
                 metric ? "distance from the lens to the mark, metres"
                        : "distance from the lens to the mark, feet",
                 axis_lettering);
}

void draw_aperture_axis(Canvas& canvas, const TradeoffReport& report,
                        const TradeoffScales& scales) {
    const plan::TradeoffRange& range = report.tradeoff.range;
    const Frame& frame = scales.frame();
    Labelled labelled{10};
    const auto label = [&](double f_number, const Lettering& lettering) {
        const double y = scales.y_from_f_number(f_number);
        if (!labelled.take(y))
            return;
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
        mark(f_number, optics::is_full_stop(f_number) ? 6 : 3);
        if (optics::is_full_stop(f_number))
            label(f_number, tick_lettering);
    }
    for (const double end : {range.widest_f_number, range.narrowest_f_number}) {
        mark(end, 3);
        label(end, faint_lettering);
    }
    canvas.text_along({frame.left - 44, (frame.top + frame.bottom) / 2}, std::numbers::pi / 2,
                      "f-number in third stops, wide open at the bottom", axis_lettering);
}

void draw_lens_axis(Canvas& canvas, const TradeoffReport& report, const TradeoffScales& scales) {
    const plan::TradeoffSamples& samples = report.tradeoff.samples;
    const double top = scales.frame().top;
    Labelled labelled{22};
    const auto label = [&](double x, double focal_length_mm, const Lettering& lettering) {
        if (!labelled.take(x))
            return;
        canvas.line(x, top - 4, x, top, ink, axis_px);
        centred_text(canvas, x, top - 8, mark_words(focal_length_mm), lettering);
    };
    // Where they crowd, the lens of the scene keeps its name, then the others carried.
    for (const bool own : {true, false})
        for (const plan::FramingLens& lens : report.tradeoff.lenses)
            if (lens.is_own == own && lens.lens_to_mark_m &&
                report.tradeoff.range.holds_distance(*lens.lens_to_mark_m))
                label(scales.x_from_m(*lens.lens_to_mark_m), lens.focal_length_mm, lens_lettering);
    const double shortest_mm = samples.framing_focal_length_mm.front();
    const double longest_mm = samples.framing_focal_length_mm.back();
    if (shortest_mm < longest_mm)
        for (const double focal_length_mm : round_numbers(shortest_mm, longest_mm, 9))
            if (const auto x = scales.x_framing_alike(focal_length_mm))
                label(*x, focal_length_mm, faint_lettering);
    centred_text(canvas, middle_x(scales.frame()), top - 24,
                 "focal length that shows the faces as large as now, mm", axis_lettering);
}

}  // namespace

void draw_tradeoff_axes(Canvas& canvas, const TradeoffReport& report,
                        const TradeoffScales& scales) {
    draw_distance_axis(canvas, report, scales);
    draw_aperture_axis(canvas, report, scales);
    draw_lens_axis(canvas, report, scales);
}

}  // namespace backrow::report
