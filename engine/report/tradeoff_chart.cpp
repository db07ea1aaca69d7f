#include "report/tradeoff_chart.h"

#include "report/paragraph.h"
#include "report/tradeoff_plot.h"
#include "report/tradeoff_style.h"
#include "report/utf8.h"
#include "report/viewing_words.h"

#include "plan/grade_limit.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <limits>
#include <string>
#include <vector>

namespace backrow::report {
namespace {

using namespace tradeoff_style;
using optics::Grade;

constexpr int page_width_px = 842;
constexpr int page_height_px = 595;
constexpr double margin_px = 36;
constexpr double text_width_px = page_width_px - 2 * margin_px;

constexpr Frame plot{
    .left = margin_px + plot_room_left_px, .top = 158, .right = 616, .bottom = 476};
constexpr double key_left_px = 640;
constexpr double key_width_px = page_width_px - margin_px - key_left_px;

const Lettering title_lettering{.size_px = 17, .bold = true, .colour = ink};
const Lettering answer_lettering{.size_px = 10.5, .bold = true, .colour = ink};
const Lettering plain_lettering{.size_px = 9, .bold = false, .colour = ink};
const Lettering note_lettering{.size_px = 8.5, .bold = false, .colour = ink};
const Lettering key_heading_lettering{.size_px = 9, .bold = true, .colour = ink};

std::string subject(const TradeoffReport& report) {
    const scene::Scene& scene = report.scene;
    return fmt::format(
        "{} with the {:g} mm lens; {}. Judged {}.",
        scene.people.size() == 1 ? "One face" : fmt::format("{} faces", scene.people.size()),
        scene.camera.focal_length_mm, focus_words(scene), viewing_words(scene.viewing));
}

void draw_heading(Canvas& canvas, const TradeoffReport& report) {
    const std::string title = on_one_line(report.scene.title);
    canvas.text(margin_px, 50, title.empty() ? "Distance and aperture" : title, title_lettering,
                text_width_px);
    double baseline_y =
        draw_paragraph(canvas, margin_px, 67, text_width_px, 12, subject(report), plain_lettering);
    baseline_y += 4;
    for (const std::string& sentence : answer_sentences(report))
        baseline_y = draw_paragraph(canvas, margin_px, baseline_y, text_width_px, 13.5, sentence,
                                    answer_lettering);
    (void)draw_paragraph(canvas, margin_px, baseline_y - 1, text_width_px, 12,
                         balanced_words(report), plain_lettering);
}

/// A ladder of shades, the sharpest on top.
///
/// returns  the baseline of what comes below
double draw_shade_key(Canvas& canvas, double top, const scene::Viewing& viewing) {
    const bool print = std::holds_alternative<optics::PrintViewing>(viewing);
    double baseline_y =
        draw_paragraph(canvas, key_left_px, top, key_width_px, 11,
                       print ? "Blur of the worst face, in arc minutes (′) at the viewer's eye"
                             : "Blur of the worst face, in pixels of the camera",
                       key_heading_lettering);
    const std::vector<double> levels = blur_levels(viewing);
    constexpr double step_px = 13;
    constexpr double swatch_px = 26;
    const double start_y = baseline_y - 5;
    const std::size_t shades = levels.size() + 1;
    const auto y_of = [&](std::size_t i) { return start_y + step_px * static_cast<double>(i); };
    for (std::size_t i = 0; i < shades; ++i) {
        const double left = key_left_px;
        canvas.fill({{{left, y_of(i)},
                      {left + swatch_px, y_of(i)},
                      {left + swatch_px, y_of(i + 1)},
                      {left, y_of(i + 1)}}},
                    shade(i, shades));
    }
    for (std::size_t i = 0; i < levels.size(); ++i)
        canvas.text(key_left_px + swatch_px + 6, y_of(i + 1) + 3,
                    print ? fmt::format("{:.3g}′", levels[i]) : fmt::format("{:.2g} px", levels[i]),
                    note_lettering, key_width_px);
    canvas.polyline({{key_left_px, y_of(0)},
                     {key_left_px + swatch_px, y_of(0)},
                     {key_left_px + swatch_px, y_of(shades)},
                     {key_left_px, y_of(shades)}},
                    true, {.colour = ink, .width_px = 0.6});

    // The words of the grades beside the shades that they cover, with the borders as in the plot.
    const double bracket_x = key_left_px + swatch_px + 46;
    double from_level = 0;
    for (const Grade grade : {Grade::crisp, Grade::fine, Grade::soft, Grade::lost}) {
        const double limit = plan::judged_limit(grade, viewing);
        const auto first = static_cast<std::size_t>(
            std::ranges::count_if(levels, [&](double level) { return level <= from_level; }));
        const auto last = static_cast<std::size_t>(
            std::ranges::count_if(levels, [&](double level) { return level <= limit; }));
        const std::size_t end = grade == Grade::lost ? shades : last;
        canvas.line(bracket_x, y_of(first) + 2.5, bracket_x, y_of(end) - 2.5, ink, 0.8);
        canvas.text(bracket_x + 6, (y_of(first) + y_of(end)) / 2 + 3, optics::to_word(grade),
                    plain_lettering, key_width_px);
        if (grade == Grade::crisp || grade == Grade::fine)
            canvas.polyline({{key_left_px, y_of(end)}, {key_left_px + swatch_px, y_of(end)}}, false,
                            grade == Grade::fine ? fine_border : crisp_border);
        from_level = limit;
    }
    return y_of(shades) + 18;
}

bool now_is_shown(const TradeoffReport& report) {
    const plan::TradeoffRange& range = report.tradeoff.range;
    const scene::Camera& camera = report.scene.camera;
    return camera.lens_to_mark_m >= range.nearest_m && camera.lens_to_mark_m <= range.farthest_m &&
           camera.f_number >= range.widest_f_number && camera.f_number <= range.narrowest_f_number;
}

template <class Sign>
double key_entry(Canvas& canvas, double baseline_y, const Sign& draw_sign,
                 const std::string& words) {
    constexpr double sign_px = 30;
    draw_sign(Point2{key_left_px + (sign_px - 6) / 2, baseline_y - 3});
    return draw_paragraph(canvas, key_left_px + sign_px, baseline_y, key_width_px - sign_px, 10.5,
                          words, note_lettering) +
           3.5;
}

void draw_key(Canvas& canvas, const TradeoffReport& report) {
    double baseline_y = draw_shade_key(canvas, plot.top - 24, report.scene.viewing);
    const auto stroke_of = [&](const Stroke& stroke) {
        return [&canvas, &stroke](const Point2& middle) {
            canvas.polyline({{middle.x - 12, middle.y}, {middle.x + 12, middle.y}}, false, stroke);
        };
    };
    const auto has_border = [](const plan::Holding& holding) {
        return !holding.everywhere && !holding.nowhere;
    };
    if (has_border(report.tradeoff.fine))
        baseline_y =
            key_entry(canvas, baseline_y, stroke_of(fine_border), "above it every face is fine");
    if (has_border(report.tradeoff.crisp))
        baseline_y =
            key_entry(canvas, baseline_y, stroke_of(crisp_border), "above it every face is crisp");
    baseline_y = key_entry(canvas, baseline_y, stroke_of(background_line),
                           "blur of the background, % of the picture's height");
    baseline_y = key_entry(
        canvas, baseline_y, [&](const Point2& middle) { draw_now(canvas, middle); },
        now_words(report) + (now_is_shown(report) ? "" : "; not on this chart"));
    if (report.tradeoff.lenses.size() > 1)
        key_entry(
            canvas, baseline_y, [&](const Point2& middle) { draw_lens_mark(canvas, middle); },
            "a lens carried: from this aperture every face is fine with it, from where it shows "
            "the faces as large as now");
}

std::string how_to_read(const TradeoffReport& report) {
    return fmt::format(
        "How to read it: go right to step back, up to stop down. The darker the shade, the more "
        "blurred is the face that is worst off; above the heavy line every face is fine, above the "
        "thinner one crisp even to a sharp eye. The dashes say what that costs: further up and to "
        "the right the background is sharper. All this is for the {:g} mm lens, focused anew at "
        "every distance, and the picture is not cropped: from further away it shows more round the "
        "group. The upper scale names the lens that would show the faces as large as now.",
        report.scene.camera.focal_length_mm);
}

}  // namespace

Canvas tradeoff_chart(const TradeoffReport& report) {
    Canvas canvas(page_width_px, page_height_px, paper);
    draw_heading(canvas, report);
    draw_tradeoff_plot(canvas, plot, report);
    draw_key(canvas, report);
    (void)draw_paragraph(canvas, margin_px, plot.bottom + plot_room_bottom_px + 16, text_width_px,
                         11.5, how_to_read(report), note_lettering);
    return canvas;
}

Bytes tradeoff_chart_bytes(const TradeoffReport& report, ChartKind kind) {
    const Canvas chart = tradeoff_chart(report);
    switch (kind) {
    case ChartKind::svg:
        return chart.svg_bytes();
    case ChartKind::pdf:
        return chart.pdf_bytes(report.scene.title);
    case ChartKind::png:
        break;
    }
    constexpr int pixels_a_point = 2;
    return png_bytes(chart.pixels(pixels_a_point));
}

}  // namespace backrow::report
