#include "report/tradeoff/tradeoff_levels.h"

#include "report/drawing/contours.h"
#include "report/tradeoff/tradeoff_style.h"

#include "scene/judged_blur.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <utility>

namespace backrow::report {
namespace {

using namespace tradeoff_style;

const Lettering border_lettering{.size_px = 9, .bold = true, .colour = ink};
const Lettering blur_lettering{.size_px = 8, .bold = false, .colour = ink};
const Lettering background_lettering{.size_px = 8, .bold = true, .colour = background_ink};

Field field_of(const plan::TradeoffSamples& samples, const std::vector<double>& values) {
    return {.columns = samples.distances, .rows = samples.f_numbers, .values = values};
}

std::vector<std::vector<Point2>> on_page(const std::vector<Curve>& curves,
                                         const TradeoffScales& scales) {
    std::vector<std::vector<Point2>> lines;
    for (const Curve& curve : curves) {
        std::vector<Point2> line;
        for (const Point2& place : curve.points)
            line.push_back(scales.page_from_samples(place));
        if (curve.closed)
            line.push_back(line.front());
        lines.push_back(std::move(line));
    }
    return lines;
}

void add_lines(std::vector<LevelLine>& all, const std::vector<std::vector<Point2>>& lines,
               const LevelLine& like) {
    for (const std::vector<Point2>& line : lines) {
        LevelLine each = like;
        each.line = line;
        // All run from left to right, so that wishes mean the same for each.
        if (each.line.front().x > each.line.back().x)
            std::ranges::reverse(each.line);
        all.push_back(std::move(each));
    }
}

void draw_with_label(Canvas& canvas, const LevelLine& each, const Frame& frame,
                     std::vector<Obstacle>& taken, const std::vector<Obstacle>& others) {
    for (const std::string& words : {each.words, each.fewer_words}) {
        if (words.empty())
            continue;
        const double width_px = canvas.text_width_px(words, each.lettering);
        const auto place = label_place(each.line, width_px, each.lettering.size_px, each.wish,
                                       frame, taken, others);
        if (!place)
            continue;
        constexpr double air_px = 2.5;
        for (const std::vector<Point2>& piece :
             without_stretch(each.line, place->along_px - width_px / 2 - air_px,
                             place->along_px + width_px / 2 + air_px))
            canvas.polyline(piece, false, each.stroke);
        canvas.text_along(place->middle, place->climb_rad, words, each.lettering);
        for (const Obstacle& spot : taken_by(*place, width_px, each.lettering.size_px))
            taken.push_back(spot);
        return;
    }
    if (each.is_border)
        canvas.polyline(each.line, false, each.stroke);
}

}  // namespace

std::vector<LevelLine> level_lines(const TradeoffReport& report, const TradeoffScales& scales) {
    const plan::TradeoffSamples& samples = report.tradeoff.samples;
    const scene::Viewing& viewing = report.scene.viewing;
    const Field blur = field_of(samples, samples.judged_blur);
    const Field background = field_of(samples, samples.background_percent);
    const double fine = limit_of(optics::Grade::fine, scene::blur_unit(viewing));
    const double crisp = limit_of(optics::Grade::crisp, scene::blur_unit(viewing));

    std::vector<LevelLine> lines;
    const auto add = [&](const Field& field, double level, const LevelLine& like) {
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
    for (const double level : blur_levels(viewing))
        if (level != fine && level != crisp)
            add(blur, level,
                {.stroke = blur_line,
                 .words = level_words(level, viewing),
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

void draw_shades(Canvas& canvas, const TradeoffReport& report, const TradeoffScales& scales) {
    const Frame& frame = scales.frame();
    const plan::TradeoffSamples& samples = report.tradeoff.samples;
    const Field blur = field_of(samples, samples.judged_blur);
    const std::vector<double> levels = blur_levels(report.scene.viewing);
    canvas.fill({outline(frame)}, shade(0, levels.size() + 1));
    for (std::size_t i = 0; i < levels.size(); ++i)
        canvas.fill(on_page(region_above(blur, levels[i]), scales),
                    shade(i + 1, levels.size() + 1));
}

void draw_level_lines(Canvas& canvas, const std::vector<LevelLine>& lines, const Frame& frame,
                      std::vector<Obstacle> taken, const std::vector<Obstacle>& avoided) {
    std::vector<std::vector<Obstacle>> obstacles;
    for (const LevelLine& each : lines)
        obstacles.push_back(obstacles_of(each.line, each.stroke.width_px));
    for (std::size_t i = 0; i < lines.size(); ++i) {
        std::vector<Obstacle> others = avoided;
        for (std::size_t j = 0; j < lines.size(); ++j)
            if (j != i)
                others.insert(others.end(), obstacles[j].begin(), obstacles[j].end());
        draw_with_label(canvas, lines[i], frame, taken, others);
    }
}

}  // namespace backrow::report
