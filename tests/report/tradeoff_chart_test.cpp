#include "report/tradeoff/tradeoff_chart.h"

#include "../scene/fifty.h"

#include "report/tradeoff/tradeoff_plot.h"
#include "report/tradeoff/tradeoff_report.h"
#include "report/tradeoff/tradeoff_scales.h"
#include "report/tradeoff/tradeoff_style.h"

#include "optics/blur/viewing.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

// The chart as it is drawn, pixel by pixel.

using namespace backrow;
using namespace backrow::report;
using Catch::Contains;

namespace {

// Wide and low, so that lines of equal blur climb little: they are then as thick upright as across.
constexpr int width_px = 1700;
constexpr int height_px = 420;
constexpr Frame frame{.left = 80, .top = 60, .right = 1680, .bottom = 360};
constexpr int scale = 2;

scene::Person somebody(std::string name, scene::FromMark place) {
    scene::Person person;
    person.name = std::move(name);
    person.place = place;
    person.measures = figures::body_measures(1.7, std::nullopt);
    return person;
}

/// Odile in focus, Bram a metre behind her; 85 mm from 4 m.
scene::Scene two_deep(double f_number) {
    scene::Scene scene;
    scene.camera = scene::fifty_wide_open();
    scene.camera.focal_length_mm = 85;
    scene.camera.f_number = f_number;
    scene.camera.lens_to_mark_m = 4;
    scene.camera.aim = scene::FromMark{.across_m = 0.3, .up_m = 0.87, .back_m = 0.5};
    scene.people = {somebody("Odile", {}), somebody("Bram", {.across_m = 0.6, .back_m = 1.0})};
    scene.focus = scene::FocusOnPerson{.name = "Odile"};
    return scene;
}

TradeoffReport report_of(const scene::Scene& scene, const plan::TradeoffRange& range,
                         const std::vector<double>& lenses_mm = {}) {
    std::vector<plan::CarriedLens> lenses;
    for (const double focal_length_mm : lenses_mm)
        lenses.push_back({.focal_length_mm = focal_length_mm, .widest_f_number = 0});
    return {.scene = scene, .tradeoff = plan::tradeoff(scene, range, lenses)};
}

constexpr plan::TradeoffRange usual_range{
    .nearest_m = 3, .farthest_m = 12, .widest_f_number = 1.4, .narrowest_f_number = 16};

Image<Rgb8> plot_of(const TradeoffReport& report) {
    Canvas canvas(width_px, height_px, report::paper);
    draw_tradeoff_plot(canvas, frame, report);
    return canvas.pixels(scale);
}

bool is_ink(Rgb8 pixel) {
    constexpr int dark = 60;  // Ink is 24, 28, 36; the darkest of all else 64, 78, 102.
    return pixel.r < dark && pixel.g < dark && pixel.b < dark;
}

Rgb8 pixel_at(const Image<Rgb8>& plot, double x, double y) {
    return plot.at(static_cast<int>(std::floor(x * scale)),
                   static_cast<int>(std::floor(y * scale)));
}

/// The middles, on the page, of strokes of ink that a column crosses within the frame, of at least
/// this thickness.
std::vector<double> strokes_across(const Image<Rgb8>& plot, double x, double least_px) {
    const int column = static_cast<int>(std::lround(x * scale));
    std::vector<double> middles;
    int from = -1;
    constexpr int inside = 3;  // The line of the frame itself.
    for (int y = static_cast<int>(frame.top) * scale + inside;
         y <= static_cast<int>(frame.bottom) * scale - inside; ++y) {
        const bool ink = is_ink(plot.at(column, y));
        if (ink && from < 0)
            from = y;
        if (!ink && from >= 0) {
            if (y - from >= least_px * scale)
                middles.push_back(0.5 * (y + from) / scale);
            from = -1;
        }
    }
    return middles;
}

}  // namespace

// The heavy border is 3 px thick, all other lines at most 1.7; its label, which interrupts it, is
// some 80 px long, and the rows of the table are 1600/9 px apart: one of them at most is hit.
// Present setting off the chart, so that no mark covers a row.
TEST_CASE("the heavy line runs where the table's worst face turns fine", "[report][measured]") {
    const TradeoffReport report = report_of(two_deep(1.2), usual_range);
    const TradeoffScales scales{frame, report.tradeoff};
    const auto plot = plot_of(report);
    int crossed = 0, lettered = 0;
    for (const plan::TradeoffRow& row : report.tradeoff.rows) {
        const double x = scales.x_from_m(row.lens_to_mark_m);
        if (x < frame.left + 2 || x > frame.right - 2)
            continue;
        const auto& cells = row.cells;
        const auto first_fine = std::ranges::find_if(cells, [](const plan::TradeoffCell& cell) {
            return cell.grade <= optics::Grade::fine;
        });
        if (first_fine == cells.begin() || first_fine == cells.end())
            continue;
        const double below_y = scales.y_from_f_number(std::prev(first_fine)->f_number);
        const double above_y = scales.y_from_f_number(first_fine->f_number);
        CAPTURE(row.lens_to_mark_m, first_fine->f_number, below_y, above_y);
        const auto strokes = strokes_across(plot, x, 2.5);
        if (strokes.size() != 1) {
            ++lettered;
            continue;
        }
        ++crossed;
        constexpr double half_stroke_px = 1.5;
        CHECK(strokes.front() >= above_y - half_stroke_px);
        CHECK(strokes.front() <= below_y + half_stroke_px);
    }
    CHECK(crossed >= 6);
    CHECK(lettered <= 1);
}

// A shade may begin a sample beside its true line, but there the line itself is drawn over it.
TEST_CASE("every cell of the table has the shade of its blur", "[report][measured]") {
    const TradeoffReport report = report_of(two_deep(1.2), usual_range);
    const TradeoffScales scales{frame, report.tradeoff};
    const auto plot = plot_of(report);
    const auto levels = tradeoff_style::blur_levels(report.scene.viewing);
    std::vector<Rgb8> shades;
    for (std::size_t i = 0; i <= levels.size(); ++i)
        shades.push_back(tradeoff_style::shade(i, levels.size() + 1));
    int seen = 0, cells = 0;
    for (const plan::TradeoffRow& row : report.tradeoff.rows)
        for (const plan::TradeoffCell& cell : row.cells) {
            const double x = scales.x_from_m(row.lens_to_mark_m);
            const double y = scales.y_from_f_number(cell.f_number);
            if (x < frame.left + 1 || x > frame.right - 1 || y < frame.top + 1 ||
                y > frame.bottom - 1)
                continue;
            ++cells;
            const auto shown = std::ranges::find(shades, pixel_at(plot, x, y));
            if (shown == shades.end())
                continue;  // A line or a label lies there.
            ++seen;
            CAPTURE(row.lens_to_mark_m, cell.f_number, cell.judged_blur.amount);
            CHECK(shown - shades.begin() == std::ranges::count_if(levels, [&](double level) {
                      return cell.judged_blur.amount > level;
                  }));
        }
    CHECK(2 * seen > cells);
}

// Worked out here from the range, not by the chart's own scales: distance evenly, stops evenly.
// Ring: ink from 4.2 to 6 px, a dot to 2.1 px, paper between and round.
TEST_CASE("the ring of the present setting stands at its distance and aperture",
          "[report][measured]") {
    for (const double lens_to_mark_m : {4.0, 11.0})
        for (const double f_number : {2.0, 13.0}) {
            scene::Scene scene = two_deep(f_number);
            scene.camera.lens_to_mark_m = lens_to_mark_m;
            const auto plot = plot_of(report_of(scene, usual_range));
            const double x = frame.left + 1600 * (lens_to_mark_m - 3) / 9;
            const double y = frame.bottom - 300 * std::log2(f_number / 1.4) / std::log2(16 / 1.4);
            CAPTURE(lens_to_mark_m, f_number, x, y);
            CHECK(is_ink(pixel_at(plot, x, y)));
            for (int eighth = 0; eighth < 8; ++eighth) {
                const double turn = eighth * std::acos(-1.0) / 4;
                const auto at = [&](double radius_px) {
                    return pixel_at(plot, x + radius_px * std::cos(turn),
                                    y + radius_px * std::sin(turn));
                };
                CHECK(is_ink(at(5.1)));
                CHECK(at(3.15) == report::paper);
            }
        }
}

TEST_CASE("the word beside the present setting hides no border", "[report][measured]") {
    // Blur goes by 1/N: at this aperture the border runs through the ring, to both its sides.
    const double seen =
        report_of(two_deep(1.4), usual_range).tradeoff.now.cells[0].judged_blur.amount;
    const double f_number = 1.4 * seen / optics::fine_limit_arcmin;
    const TradeoffReport report = report_of(two_deep(f_number), usual_range);
    const TradeoffScales scales{frame, report.tradeoff};
    const auto plot = plot_of(report);
    const double x = scales.x_from_m(4);
    int crossed = 0;
    for (const double off_px : {-40.0, -30.0, -20.0, -12.0, 12.0, 20.0, 30.0, 40.0})
        crossed += strokes_across(plot, x + off_px, 2.5).empty() ? 0 : 1;
    CHECK(crossed == 8);
}

TEST_CASE(
    "a lens carried is a hollow lozenge where it holds every face, the lens in use a full one",
    "[report][measured]") {
    const TradeoffReport report = report_of(two_deep(1.2), usual_range, {135});
    const TradeoffScales scales{frame, report.tradeoff};
    const auto plot = plot_of(report);
    REQUIRE(report.tradeoff.lenses.size() == 2);
    for (const plan::FramingLens& lens : report.tradeoff.lenses) {
        REQUIRE(lens.lens_to_mark_m);
        REQUIRE(lens.fine);
        const double x = scales.x_from_m(*lens.lens_to_mark_m);
        const double y = scales.y_from_f_number(lens.fine->from);
        CAPTURE(lens.focal_length_mm, x, y);
        const bool carried = lens.focal_length_mm == 135;
        CHECK((pixel_at(plot, x, y) == report::paper) == carried);
        CHECK(is_ink(pixel_at(plot, x, y)) == !carried);
        for (const double off_px : {-4.2, 4.2}) {
            CHECK(is_ink(pixel_at(plot, x + off_px, y)));
            CHECK(is_ink(pixel_at(plot, x, y + off_px)));
        }
    }
}

TEST_CASE("a chart without a border has none in its plot, key or words", "[report][measured]") {
    const auto heavy_ink = [](const TradeoffReport& report) {
        const auto page = tradeoff_chart(report).pixels(scale);
        int strokes = 0;
        for (int x = 0; x < page.width_px(); ++x) {
            int run = 0;
            for (int y = 180 * scale; y < 500 * scale; ++y) {
                const bool ink = is_ink(page.at(x, y));
                // A level stroke as thick as the border: 6 pixels, no letter's and no mark's.
                if (!ink && run >= 5 && run <= 7)
                    ++strokes;
                run = ink ? run + 1 : 0;
            }
        }
        return strokes;
    };
    const TradeoffReport both = report_of(two_deep(1.2), usual_range);
    REQUIRE((both.tradeoff.fine.in_part() && both.tradeoff.crisp.in_part()));
    CHECK_THAT(how_to_read(both), Contains("heavy line") && Contains("thinner line"));

    plan::TradeoffRange sharp = usual_range;
    sharp.nearest_m = 11;
    sharp.widest_f_number = 11;
    scene::Scene by_blur = two_deep(1.2);  // by which alone stopping down never ends
    by_blur.judge = scene::Judge::blur;
    const TradeoffReport neither = report_of(by_blur, sharp);
    REQUIRE((neither.tradeoff.fine.everywhere && neither.tradeoff.crisp.everywhere));
    CHECK_THAT(how_to_read(neither), !Contains("line"));
    CHECK(heavy_ink(both) > 10 * heavy_ink(neither));

    plan::TradeoffRange open = usual_range;
    open.farthest_m = 7;
    open.narrowest_f_number = 5.6;
    const TradeoffReport no_crisp = report_of(two_deep(1.2), open);
    REQUIRE((no_crisp.tradeoff.fine.in_part() && no_crisp.tradeoff.crisp.nowhere));
    CHECK_THAT(how_to_read(no_crisp), Contains("heavy line") && !Contains("thinner"));
}

// A page apart from another in nothing but from where on heads are whole: what differs is hatching.
// Tolerance: a line is 0.6 px wide, so nothing of it lies a pixel beyond its end.
TEST_CASE("a chart and a table that open wider than f/2 say where they rest on a perfect lens",
          "[report][property]") {
    const auto said = [](double widest_f_number, bool has_profile) {
        scene::Scene scene = two_deep(2.8);
        if (has_profile)
            scene.lens.profile = optics::LensProfile{.widest_f_number = 1.2, .spherical_dpt = 0.02};
        plan::TradeoffRange range = usual_range;
        range.widest_f_number = widest_f_number;
        const TradeoffReport report = report_of(scene, range);
        const std::string sentence = "Reckoned with a perfect lens; few are so at f/1.4.";
        const bool by_table = tradeoff_text(report).find(sentence) != std::string::npos;
        CHECK(by_table == (how_to_read(report).find(sentence) != std::string::npos));
        return by_table;
    };
    CHECK(said(1.4, false));
    CHECK_FALSE(said(2, false));
    CHECK_FALSE(said(1.4, true));
}

TEST_CASE("where the frame cuts heads the chart is hatched, and nowhere else",
          "[report][measured]") {
    const TradeoffReport cut = report_of(two_deep(1.2), usual_range);
    const auto& from_m = cut.tradeoff.heads_whole_from_m;
    REQUIRE(from_m);
    REQUIRE((*from_m > 4 && *from_m < 11));
    TradeoffReport whole = cut;
    whole.tradeoff.heads_whole_from_m = usual_range.nearest_m;
    const auto one = plot_of(cut);
    const auto other = plot_of(whole);
    const double border_px = frame.left + 1600 * (*from_m - 3) / 9;
    constexpr double wider_than_apart_px = 10;
    long beyond = 0;
    std::vector<bool> is_hatched(static_cast<std::size_t>(frame.right / wider_than_apart_px));
    for (int x = 0; x < one.width_px(); ++x)
        for (int y = 0; y < one.height_px(); ++y) {
            if (one.at(x, y) == other.at(x, y))
                continue;
            const double at_px = static_cast<double>(x) / scale;
            beyond += at_px > border_px + 1 || at_px < frame.left - 1 ? 1 : 0;
            is_hatched[static_cast<std::size_t>(at_px / wider_than_apart_px)] = true;
        }
    CHECK(beyond == 0);
    for (double x = frame.left; x + wider_than_apart_px < border_px; x += wider_than_apart_px)
        CHECK(is_hatched[static_cast<std::size_t>(x / wider_than_apart_px)]);
    CHECK_THAT(how_to_read(cut), Contains("Where it is hatched, the frame cuts heads."));
    CHECK_THAT(how_to_read(whole), !Contains("hatched"));
}
