#include "report/tradeoff/tradeoff_style.h"

#include "optics/blur/viewing.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <variant>

namespace backrow::report::tradeoff_style {
namespace {

std::vector<Point2> lozenge(const Point2& middle, double half_px) {
    return {{middle.x, middle.y - half_px},
            {middle.x + half_px, middle.y},
            {middle.x, middle.y + half_px},
            {middle.x - half_px, middle.y}};
}

}  // namespace

std::vector<double> blur_levels(const scene::Viewing& viewing) {
    using namespace optics;
    if (std::holds_alternative<PrintViewing>(viewing))
        return {0.25, 0.5, crisp_limit_arcmin, 2,  fine_limit_arcmin,
                4,    5.5, soft_limit_arcmin,  12, 18};
    return {0.4, 0.75, crisp_limit_px, 2, fine_limit_px, 4.5, 6, soft_limit_px, 13, 20};
}

Rgb8 shade(std::size_t i, std::size_t count) {
    constexpr Rgb8 lightest{250, 251, 253};
    constexpr Rgb8 darkest{124, 146, 178};
    const double share = static_cast<double>(i) / static_cast<double>(count - 1);
    const auto mix = [&](std::uint8_t from, std::uint8_t to) {
        return static_cast<std::uint8_t>(std::lround(from + share * (to - from)));
    };
    return {mix(lightest.r, darkest.r), mix(lightest.g, darkest.g), mix(lightest.b, darkest.b)};
}

std::vector<double> background_levels(double least, double greatest) {
    constexpr std::size_t most = 7;
    std::vector<double> close;
    std::vector<double> apart;
    constexpr double smallest_percent = 0.01;
    constexpr double largest_percent = 1000;
    const auto add = [&](std::vector<double>& levels, double level) {
        if (level > least && level < greatest)
            levels.push_back(level);
    };
    for (double power = smallest_percent; power < largest_percent; power *= 10) {
        for (const double digit : {1.0, 1.5, 2.0, 3.0, 5.0, 7.0})
            add(close, digit * power);
        for (const double digit : {1.0, 2.0, 5.0})
            add(apart, digit * power);
    }
    std::vector<double>& levels = close.size() <= most ? close : apart;
    // The coarser scale may still have too many; the lowest say least.
    if (levels.size() > most)
        levels.erase(levels.begin(), levels.end() - static_cast<std::ptrdiff_t>(most));
    return levels;
}

void draw_hatch(Canvas& canvas, const Frame& part) {
    // Each climbs at 45° from x at the bottom line, and is cut off at the part's edges.
    constexpr double apart_px = 9;
    const double height_px = part.bottom - part.top;
    for (double x = part.left - height_px + apart_px / 2; x < part.right; x += apart_px) {
        const double from_x = std::max(x, part.left);
        const double to_x = std::min(x + height_px, part.right);
        canvas.polyline({{from_x, part.bottom - (from_x - x)}, {to_x, part.bottom - (to_x - x)}},
                        false, hatch_line);
    }
}

void draw_now(Canvas& canvas, const Point2& middle) {
    canvas.disc(middle.x, middle.y, 7, paper);
    canvas.disc(middle.x, middle.y, 6, ink);
    canvas.disc(middle.x, middle.y, 4.2, paper);
    canvas.disc(middle.x, middle.y, 2.1, ink);
}

void draw_own_lens(Canvas& canvas, const Point2& middle) {
    canvas.fill({lozenge(middle, 6.5)}, paper);
    canvas.fill({lozenge(middle, 5)}, ink);
}

void draw_other_lens(Canvas& canvas, const Point2& middle) {
    canvas.fill({lozenge(middle, 7.5)}, paper);
    canvas.fill({lozenge(middle, 6)}, ink);
    canvas.fill({lozenge(middle, 3.6)}, paper);
}

}  // namespace backrow::report::tradeoff_style
