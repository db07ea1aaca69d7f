#include "report/tradeoff/tradeoff_key.h"

#include "report/drawing/line_labels.h"
#include "report/drawing/paragraph.h"
#include "report/tradeoff/tradeoff_marks.h"
#include "report/tradeoff/tradeoff_style.h"

#include "scene/judged_blur.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <string>
#include <variant>
#include <vector>

namespace backrow::report {
namespace {

using namespace tradeoff_style;
using optics::Grade;

const Lettering heading_lettering{.size_px = 9, .bold = true, .colour = ink};
const Lettering grade_lettering{.size_px = 9, .bold = false, .colour = ink};

constexpr double rung_px = 13;
constexpr double swatch_px = 26;

/// A ladder of shades, the sharpest on top.
struct Ladder {
    double left = 0;
    double top = 0;
    std::vector<double> levels{};  ///< Between the rungs.

    [[nodiscard]] std::size_t shades() const { return levels.size() + 1; }
    [[nodiscard]] double y_of(std::size_t rung) const {
        return top + rung_px * static_cast<double>(rung);
    }
    /// The rung at the lower end of what is within a limit; a limit is a level.
    [[nodiscard]] std::size_t rung_at(double limit) const {
        return static_cast<std::size_t>(
            std::ranges::count_if(levels, [&](double level) { return level <= limit; }));
    }
    [[nodiscard]] Frame swatches(std::size_t from, std::size_t to) const {
        return {.left = left, .top = y_of(from), .right = left + swatch_px, .bottom = y_of(to)};
    }
};

void draw_swatches(Canvas& canvas, const Ladder& ladder, const scene::Viewing& viewing,
                   double width_px) {
    for (std::size_t i = 0; i < ladder.shades(); ++i)
        canvas.fill({outline(ladder.swatches(i, i + 1))}, shade(i, ladder.shades()));
    for (std::size_t i = 0; i < ladder.levels.size(); ++i)
        canvas.text(ladder.left + swatch_px + 6, ladder.y_of(i + 1) + 3,
                    level_words(ladder.levels[i], viewing), note_lettering, width_px);
    canvas.polyline(outline(ladder.swatches(0, ladder.shades())), true,
                    {.colour = ink, .width_px = 0.6});
}

/// The words of the grades beside the shades that they cover, and those borders that the chart has.
void draw_grades(Canvas& canvas, const Ladder& ladder, const TradeoffReport& report,
                 double width_px) {
    const double bracket_x = ladder.left + swatch_px + 46;
    std::size_t from = 0;
    for (const Grade grade : {Grade::crisp, Grade::fine, Grade::soft, Grade::lost}) {
        const std::size_t to =
            grade == Grade::lost
                ? ladder.shades()
                : ladder.rung_at(limit_of(grade, scene::blur_unit(report.scene.viewing)));
        canvas.line(bracket_x, ladder.y_of(from) + 2.5, bracket_x, ladder.y_of(to) - 2.5, ink,
                    axis_px);
        canvas.text(bracket_x + 6, (ladder.y_of(from) + ladder.y_of(to)) / 2 + 3,
                    optics::to_word(grade), grade_lettering, width_px);
        const auto draw_border = [&](const Stroke& stroke) {
            canvas.polyline(
                {{ladder.left, ladder.y_of(to)}, {ladder.left + swatch_px, ladder.y_of(to)}}, false,
                stroke);
        };
        if (grade == Grade::crisp && report.tradeoff.crisp.in_part())
            draw_border(crisp_border);
        if (grade == Grade::fine && report.tradeoff.fine.in_part())
            draw_border(fine_border);
        from = to;
    }
}

/// Signs with their words, one below the other.
class Entries {
public:
    Entries(Canvas& canvas, double left, double baseline_y, double width_px)
        : canvas_{canvas}, left_{left}, baseline_y_{baseline_y}, width_px_{width_px} {}

    /// draw_sign  is given the middle of its place
    template <class Sign>
    void add(const Sign& draw_sign, const std::string& words) {
        constexpr double sign_px = 30;
        constexpr double line_px = 10.5;
        constexpr double gap_px = 3.5;
        draw_sign(Point2{left_ + (sign_px - 6) / 2, baseline_y_ - 3});
        baseline_y_ = draw_paragraph(canvas_, left_ + sign_px, baseline_y_, width_px_ - sign_px,
                                     line_px, words, note_lettering) +
                      gap_px;
    }
    void add_line(const Stroke& stroke, const std::string& words) {
        add(
            [&](const Point2& middle) {
                canvas_.polyline({{middle.x - 12, middle.y}, {middle.x + 12, middle.y}}, false,
                                 stroke);
            },
            words);
    }

private:
    Canvas& canvas_;
    double left_;
    double baseline_y_;
    double width_px_;
};

bool any_marked(const TradeoffReport& report, bool own) {
    return std::ranges::any_of(report.tradeoff.lenses, [&](const plan::FramingLens& lens) {
        return is_marked(report, lens) && lens.is_own == own;
    });
}

}  // namespace

void draw_tradeoff_key(Canvas& canvas, double left, double top, double width_px,
                       const TradeoffReport& report) {
    const scene::Viewing& viewing = report.scene.viewing;
    const bool print = std::holds_alternative<optics::PrintViewing>(viewing);
    const double below_heading =
        draw_paragraph(canvas, left, top, width_px, 11,
                       print ? "Blur of the worst face, in arc minutes (′) at the viewer’s eye"
                             : "Blur of the worst face, in pixels of the camera",
                       heading_lettering);
    const Ladder ladder{.left = left, .top = below_heading - 5, .levels = blur_levels(viewing)};
    draw_swatches(canvas, ladder, viewing, width_px);
    draw_grades(canvas, ladder, report, width_px);

    Entries entries{canvas, left, ladder.y_of(ladder.shades()) + 18, width_px};
    if (report.tradeoff.fine.in_part())
        entries.add_line(fine_border, "above it every face is fine");
    if (report.tradeoff.crisp.in_part())
        entries.add_line(crisp_border, "above it every face is crisp");
    entries.add_line(background_line, "blur of the background, % of the picture’s height");
    if (cuts_heads(report))
        entries.add(
            [&](const Point2& middle) {
                draw_hatch(canvas, {.left = middle.x - 12,
                                    .top = middle.y - 6,
                                    .right = middle.x + 12,
                                    .bottom = middle.y + 6});
            },
            fmt::format("the frame of the {:g} mm lens cuts heads",
                        report.scene.camera.focal_length_mm));
    const bool now_is_shown = report.tradeoff.range.holds(report.scene.camera.lens_to_mark_m,
                                                          report.scene.camera.f_number);
    entries.add([&](const Point2& middle) { draw_now(canvas, middle); },
                now_words(report) + (now_is_shown ? "" : "; not on this chart"));
    if (any_marked(report, true))
        entries.add(
            [&](const Point2& middle) { draw_own_lens(canvas, middle); },
            fmt::format("with the {:g} mm lens from the present distance every face is fine "
                        "from here up",
                        report.scene.camera.focal_length_mm));
    if (any_marked(report, false))
        entries.add([&](const Point2& middle) { draw_other_lens(canvas, middle); },
                    "the same for another lens carried, which shows the faces as large as now from "
                    "there; the shades are not its own");
}

}  // namespace backrow::report
