#include "report/tradeoff/tradeoff_chart.h"

#include "report/drawing/paragraph.h"
#include "report/text/viewing_words.h"
#include "report/tradeoff/tradeoff_axes.h"
#include "report/tradeoff/tradeoff_key.h"
#include "report/tradeoff/tradeoff_plot.h"
#include "report/tradeoff/tradeoff_style.h"

#include "base/utf8.h"

#include <fmt/format.h>

#include <string>

namespace backrow::report {
namespace {

using namespace tradeoff_style;

constexpr int page_width_px = 842;
constexpr int page_height_px = 595;
constexpr double margin_px = 36;
constexpr double text_width_px = page_width_px - 2 * margin_px;

constexpr Frame plot{
    .left = margin_px + axes_room_left_px, .top = 158, .right = 616, .bottom = 476};
constexpr double key_left_px = 640;
constexpr double key_width_px = page_width_px - margin_px - key_left_px;
constexpr double key_rise_px = 24;  // Above the frame, beside the upper scale.

const Lettering title_lettering{.size_px = 17, .bold = true, .colour = ink};
const Lettering answer_lettering{.size_px = 10.5, .bold = true, .colour = ink};
const Lettering plain_lettering{.size_px = 9, .bold = false, .colour = ink};

std::string subject(const TradeoffReport& report) {
    const scene::Scene& scene = report.scene;
    return fmt::format("{} with the {:g} mm lens; {}. Judged {}.",
                       scene.people.size() == 1 ? "One face"
                                                : fmt::format("{} faces", scene.people.size()),
                       scene.camera.focal_length_mm, focus_words(scene, report.units),
                       viewing_words(scene.viewing, report.units));
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
    baseline_y -= 1;
    for (const std::string& sentence : {balanced_words(report), framing_words(report)})
        baseline_y = draw_paragraph(canvas, margin_px, baseline_y, text_width_px, 12, sentence,
                                    plain_lettering);
}

}  // namespace

Canvas tradeoff_chart(const TradeoffReport& report) {
    Canvas canvas(page_width_px, page_height_px, paper);
    draw_heading(canvas, report);
    draw_tradeoff_plot(canvas, plot, report);
    draw_tradeoff_key(canvas, key_left_px, plot.top - key_rise_px, key_width_px, report);
    (void)draw_paragraph(canvas, margin_px, plot.bottom + axes_room_bottom_px + 16, text_width_px,
                         11.5, how_to_read(report), note_lettering);
    return canvas;
}

Bytes tradeoff_chart_bytes(const TradeoffReport& report, PageKind kind) {
    constexpr int pixels_a_point = 2;
    return page_bytes(tradeoff_chart(report), kind, pixels_a_point, report.scene.title);
}

}  // namespace backrow::report
