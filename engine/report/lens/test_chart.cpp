#include "report/lens/test_chart.h"

#include "report/drawing/paragraph.h"

#include "base/sequences.h"
#include "base/units.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <string>
#include <vector>

namespace backrow::report {
namespace {

constexpr Rgb8 white{255, 255, 255};
constexpr Rgb8 black{0, 0, 0};

constexpr double margin_px = 30;  // what printers leave white
constexpr double words_height_px = 128;
constexpr int columns = 5;
constexpr int rows = 3;
constexpr double slant_deg = 5;
constexpr double side_of_pitch = 0.62;  // as much white beside an edge as its blur may need

struct Size {
    int width_px;
    int height_px;
};

Size size_of(Paper paper) {
    return paper == Paper::a4 ? Size{842, 595} : Size{792, 612};
}

std::vector<Point2> slanted_square(const Point2& middle, double side_px) {
    std::vector<Point2> corners;
    for (const Point2 corner : {Point2{-1, -1}, Point2{1, -1}, Point2{1, 1}, Point2{-1, 1}}) {
        const Point2 slanted = turned(corner, rad_from_deg(slant_deg));
        corners.push_back({middle.x + side_px / 2 * slanted.x, middle.y + side_px / 2 * slanted.y});
    }
    return corners;
}

/// Spokes as wide as the gaps between them, finer and finer towards the middle.
std::vector<std::vector<Point2>> star(const Point2& middle, double radius_px) {
    constexpr int spokes = 36;
    std::vector<std::vector<Point2>> outlines;
    for (int spoke = 0; spoke < spokes; ++spoke) {
        std::vector<Point2> wedge{middle};
        constexpr int arcs = 4;
        for (int arc = 0; arc <= arcs; ++arc) {
            const double angle =
                2 * std::numbers::pi * (spoke + 0.5 * arc / arcs) / static_cast<double>(spokes);
            wedge.push_back(
                {middle.x + radius_px * std::cos(angle), middle.y + radius_px * std::sin(angle)});
        }
        outlines.push_back(std::move(wedge));
    }
    return outlines;
}

const std::array<const char*, 4> left_words{
    "1. Print at full size on matt paper, and hang it flat. Several sheets at once, in the middle, "
    "half-way and in the corners of the frame, or one that is moved.",
    "2. Even light, no shine. Camera on a tripod, level and parallel to the wall, at least 40 "
    "focal lengths away: 2 m for 50 mm.",
    "3. Lowest ISO, self-timer or remote release, stabiliser off. Expose so that the paper is "
    "bright and not white, a stop below where it clips.",
    "4. Focus on the star by hand, magnified, at the widest opening.",
};
const std::array<const char*, 4> right_words{
    "5. Take a frame at every opening from the widest to f/11, and leave the focus as it is: all "
    "frames of a fit must share it.",
    "6. Develop from RAW without sharpening, noise reduction and lens corrections.",
    "7. Export as PNG of 16 bits, linear if that can be chosen (then add --linear), else sRGB.",
    "8. backrow lens measure FRAME.png … tells the sharpness, and backrow lens fit the lens. Edges "
    "that are clipped, sharpened, noisy or moved are left out, and it says why.",
};

void draw_words(Canvas& canvas, const Size& size) {
    const Lettering lettering{.size_px = 8.5, .bold = false, .colour = black};
    constexpr double line_px = 11.5;
    constexpr double gap_px = 24;
    const double top_px = size.height_px - margin_px - words_height_px;
    canvas.text(margin_px, top_px + 8, "How to shoot this chart",
                {.size_px = 11, .bold = true, .colour = black}, size.width_px - 2 * margin_px);
    const double width_px = (size.width_px - 2 * margin_px - gap_px) / 2;
    double left_x = margin_px;
    for (const auto& words : {left_words, right_words}) {
        double baseline_px = top_px + 25;
        for (const char* sentence : words)
            baseline_px =
                draw_paragraph(canvas, left_x, baseline_px, width_px, line_px, sentence, lettering);
        left_x += width_px + gap_px;
    }
}

}  // namespace

Canvas test_chart(Paper paper) {
    const Size size = size_of(paper);
    Canvas canvas(size.width_px, size.height_px, white);
    const double pitch_x = (size.width_px - 2 * margin_px) / columns;
    const double pitch_y = (size.height_px - 2 * margin_px - words_height_px) / rows;
    const double side_px = side_of_pitch * std::min(pitch_x, pitch_y);
    for (int row = 0; row < rows; ++row)
        for (int column = 0; column < columns; ++column) {
            const Point2 middle{margin_px + (column + 0.5) * pitch_x,
                                margin_px + (row + 0.5) * pitch_y};
            if (row == rows / 2 && column == columns / 2)
                canvas.fill(star(middle, side_px / 2), black);
            else
                canvas.fill({slanted_square(middle, side_px)}, black);
        }
    draw_words(canvas, size);
    return canvas;
}

Bytes test_chart_pdf(Paper paper) {
    return test_chart(paper).pdf_bytes("A chart of slanted edges");
}

}  // namespace backrow::report
