#include "report/lens/lens_sheet.h"

#include "report/drawing/page_ink.h"
#include "report/drawing/paragraph.h"
#include "report/drawing/plot_axes.h"
#include "report/text/viewing_words.h"

#include "base/units.h"
#include "base/utf8.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

namespace backrow::report {
namespace {

constexpr int sheet_width_px = 842;
constexpr int sheet_height_px = 595;
constexpr double sheet_margin_px = 36;
constexpr double words_width_px = sheet_width_px - 2 * sheet_margin_px;
constexpr Frame sharpness_frame{.left = 84, .top = 196, .right = 456, .bottom = 522};
constexpr Frame field_frame{.left = 560, .top = 196, .right = 766, .bottom = 326};
constexpr Frame light_frame{.left = 560, .top = 392, .right = 766, .bottom = 522};

const Lettering title_lettering{.size_px = 17, .bold = true, .colour = ink};
const Lettering good_lettering{.size_px = 10.5, .bold = true, .colour = ink};
const Lettering plain_lettering{.size_px = 9, .bold = false, .colour = ink};
const Lettering heading_lettering{.size_px = 10, .bold = true, .colour = ink};
const Lettering label_lettering{.size_px = 8.5, .bold = false, .colour = ink};

/// Stopping down goes from thick to thin, so that openings are told apart in any light.
constexpr std::array widths_px{2.4, 1.8, 1.3, 0.9, 0.6};
constexpr std::array inks{Rgb8{24, 28, 36}, Rgb8{106, 38, 0}, Rgb8{24, 70, 120}, Rgb8{24, 28, 36},
                          Rgb8{106, 38, 0}};
const std::vector<double> dashes_px{5, 3};

std::size_t openings_shown(const LensReport& report) {
    return std::min(report.figures.f_numbers.size(), widths_px.size());
}

Stroke stroke_of(std::size_t opening, bool dashed) {
    return {.colour = inks[opening],
            .width_px = widths_px[opening],
            .dashes_px = dashed ? dashes_px : std::vector<double>{}};
}

std::string height_words(double height) {
    return height == 0 ? "middle" : height == 1 ? "corner" : "half way";
}

PlotScale heights() {
    return {.from = 0,
            .to = 1,
            .words = "place in the picture",
            .most_marks = 3,
            .mark_words = height_words};
}

/// The names of openings at the ends of their lines, moved apart where they crowd.
class EndLabels {
public:
    void add(double y, std::size_t opening, double f_number) {
        labels_.push_back({y, opening, fmt::format("f/{:g}", f_number)});
    }
    void draw(Canvas& canvas, const Frame& frame) {
        constexpr double apart_px = 10;
        std::ranges::stable_sort(labels_, {}, &Label::y);
        double free_y = frame.top;
        for (Label& label : labels_) {
            const double y = std::max(label.y, free_y);
            const double x = frame.right;
            canvas.line(x + 2, label.y, x + 10, y, inks[label.opening], 0.7);
            canvas.text(x + 13, y + 3, label.words, label_lettering, 40);
            free_y = y + apart_px;
        }
    }

private:
    struct Label {
        double y;
        std::size_t opening;
        std::string words;
    };
    std::vector<Label> labels_;
};

template <class Value>
std::vector<Point2> by_height(const LensReport& report, std::size_t opening, const Value& value) {
    std::vector<Point2> points;
    for (std::size_t k = 0; k < report.figures.image_heights.size(); ++k)
        points.push_back(
            {report.figures.image_heights[k], value(report.figures.places[opening][k])});
    return points;
}

void heading(Canvas& canvas, const Frame& frame, const std::string& words) {
    canvas.text(frame.left, frame.top - 8, words, heading_lettering, frame.right - frame.left + 60);
}

// Sharper than this no camera of today records.
constexpr double most_lp_per_mm = 120;

void draw_sharpness(Canvas& canvas, const LensReport& report) {
    using optics::PlaceFigures;
    heading(canvas, sharpness_frame, "Sharpness: half of the contrast is left at");
    double most = 20;
    for (std::size_t i = 0; i < openings_shown(report); ++i)
        for (const PlaceFigures& place : report.figures.places[i])
            most =
                std::max({most, place.mtf50_tangential_cy_per_mm, place.mtf50_sagittal_cy_per_mm});
    most = std::min(most * 1.05, most_lp_per_mm);
    const PlotPlaces places =
        draw_axes(canvas, sharpness_frame, heights(),
                  {.from = 0, .to = most, .words = "line pairs a millimetre", .most_marks = 9});
    EndLabels labels;
    for (std::size_t i = 0; i < openings_shown(report); ++i) {
        const auto across = by_height(
            report, i, [](const PlaceFigures& place) { return place.mtf50_tangential_cy_per_mm; });
        const auto along = by_height(
            report, i, [](const PlaceFigures& place) { return place.mtf50_sagittal_cy_per_mm; });
        draw_curve(canvas, places, across, stroke_of(i, false));
        draw_curve(canvas, places, along, stroke_of(i, true));
        labels.add(places.at(1, std::min(across.back().y, most)).y, i, report.figures.f_numbers[i]);
    }
    labels.draw(canvas, sharpness_frame);
}

void draw_field(Canvas& canvas, const LensReport& report) {
    const bool is_metric = report.units == Units::metric;
    const double unit_m = is_metric ? 0.01 : m_from_ft(1) / 12;
    heading(canvas, field_frame, "Field: where it is sharpest");
    double most = 5;
    std::vector<Point2> across, along;
    for (const optics::FieldFigures& at : report.figures.field) {
        across.push_back({at.tangential_m / unit_m, at.image_height});
        along.push_back({at.sagittal_m / unit_m, at.image_height});
        most = std::max({most, std::abs(across.back().x), std::abs(along.back().x)});
    }
    const PlotPlaces places =
        draw_axes(canvas, field_frame,
                  {.from = -most * 1.1,
                   .to = most * 1.1,
                   .words = is_metric ? "cm behind the chart" : "inches behind the chart",
                   .most_marks = 5},
                  {.from = 0, .to = 1, .words = "", .most_marks = 3, .mark_words = height_words});
    draw_curve(canvas, places, across, {.colour = ink, .width_px = 1.4});
    draw_curve(canvas, places, along, {.colour = ink, .width_px = 1.4, .dashes_px = dashes_px});
}

void draw_light(Canvas& canvas, const LensReport& report) {
    heading(canvas, light_frame, "Light lost towards the corner");
    double most = 1;
    for (const auto& row : report.figures.places)
        for (const optics::PlaceFigures& place : row)
            most = std::max(most, place.stops_lost);
    const PlotPlaces places =
        draw_axes(canvas, light_frame, heights(),
                  {.from = most * 1.05, .to = 0, .words = "stops", .most_marks = 5});
    EndLabels labels;
    for (std::size_t i = 0; i < openings_shown(report); ++i) {
        const auto lost = by_height(
            report, i, [](const optics::PlaceFigures& place) { return place.stops_lost; });
        draw_curve(canvas, places, lost, stroke_of(i, false));
        labels.add(places.at(1, lost.back().y).y, i, report.figures.f_numbers[i]);
    }
    labels.draw(canvas, light_frame);
}

void draw_words(Canvas& canvas, const LensReport& report) {
    canvas.text(sheet_margin_px, 50, lens_name(report), title_lettering, words_width_px);
    std::string about;
    for (const std::string& part : {report.origin, report.date})
        if (!part.empty())
            about += on_one_line(part) + ". ";
    about += fmt::format(
        "Of a flat chart {} away, focused in its middle at each opening; judged {}.",
        length_words(report.figures.distance_m, LengthScale::short_metres, report.units),
        viewing_words(report.viewing, report.units));
    about[0] =
        about[0] >= 'a' && about[0] <= 'z' ? static_cast<char>(about[0] - 'a' + 'A') : about[0];
    double y =
        draw_paragraph(canvas, sheet_margin_px, 67, words_width_px, 12, about, plain_lettering) + 4;
    const auto sentences = lens_sentences(report);
    for (std::size_t i = 0; i < sentences.size(); ++i)
        y = i < 2 ? draw_paragraph(canvas, sheet_margin_px, y, words_width_px, 13.5, sentences[i],
                                   good_lettering)
                  : draw_paragraph(canvas, sheet_margin_px, y, words_width_px, 12, sentences[i],
                                   plain_lettering);
}

}  // namespace

Canvas lens_sheet(const LensReport& report) {
    Canvas canvas(sheet_width_px, sheet_height_px, paper);
    draw_words(canvas, report);
    draw_sharpness(canvas, report);
    draw_field(canvas, report);
    draw_light(canvas, report);
    canvas.text(sheet_margin_px, sheet_height_px - 22,
                "Whole lines: of lines that lie across the radius; dashed: of lines along it. "
                "Diffraction is counted; the camera's pixels are not. What lies above the frame is "
                "sharper than cameras record.",
                plain_lettering, words_width_px);
    return canvas;
}

}  // namespace backrow::report
