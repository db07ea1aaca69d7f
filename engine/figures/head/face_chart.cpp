#include "figures/head/face_chart.h"

#include "figures/head/head_template.h"
#include "figures/skin/skin_detail.h"

#include "base/side_by_side.h"

#include <glm/common.hpp>
#include <glm/geometric.hpp>

#include <algorithm>
#include <vector>

namespace backrow::figures {
namespace {

constexpr int texels_per_step = 8;
constexpr int columns = sheet::width / texels_per_step + 1;
constexpr int rows = sheet::face_rows / texels_per_step + 1;

std::size_t index_of(int column, int row) {
    return static_cast<std::size_t>(row * columns + column);
}

/// Every eighth texel; the rest lies between.
std::vector<ChartPoint> made_chart() {
    std::vector<ChartPoint> chart(static_cast<std::size_t>(columns * rows));
    const double step_mm = texels_per_step / sheet::per_mm;
    const int middle = columns / 2;
    side_by_side(rows, [&](std::size_t row) {
        const int r = static_cast<int>(row);
        for (int c = middle; c < columns; ++c) {
            const glm::dvec2 plane{(c - middle) * step_mm, sheet::top_mm - r * step_mm};
            const glm::dvec3 at = rolled_mm(plane);
            chart[index_of(c, r)].at_mm = at;
            chart[index_of(columns - 1 - c, r)].at_mm = {-at.x, at.y, at.z};
        }
    });
    const auto apart = [&](int c, int r, int d, int e) {
        return glm::distance(chart[index_of(c, r)].at_mm, chart[index_of(d, e)].at_mm);
    };
    for (int r = 0; r < rows; ++r)
        for (int c = columns / 2; c < columns; ++c) {
            ChartPoint& here = chart[index_of(c, r)];
            if (c > columns / 2) {
                const double across = apart(c, r, c - 1, r);
                here.laid_mm.x = chart[index_of(c - 1, r)].laid_mm.x + across;
                here.stretch.x = across / step_mm;
            }
            if (r > 0) {
                const double down = apart(c, r, c, r - 1);
                here.laid_mm.y = chart[index_of(c, r - 1)].laid_mm.y + down;
                here.stretch.y = down / step_mm;
            }
            ChartPoint& there = chart[index_of(columns - 1 - c, r)];
            there.laid_mm = {-here.laid_mm.x, here.laid_mm.y};
            there.stretch = here.stretch;
        }
    return chart;
}

}  // namespace

ChartPoint chart_point(double column, double row) {
    static const std::vector<ChartPoint> chart = made_chart();
    const double x = column / texels_per_step, y = row / texels_per_step;
    const int c = std::clamp(static_cast<int>(x), 0, columns - 2);
    const int r = std::clamp(static_cast<int>(y), 0, rows - 2);
    const double u = x - c, v = y - r;
    const ChartPoint &a = chart[index_of(c, r)], &b = chart[index_of(c + 1, r)],
                     &d = chart[index_of(c, r + 1)], &e = chart[index_of(c + 1, r + 1)];
    const auto between = [&](const auto& of) {
        return glm::mix(glm::mix(of(a), of(b), u), glm::mix(of(d), of(e), u), v);
    };
    return {between([](const ChartPoint& p) { return p.at_mm; }),
            between([](const ChartPoint& p) { return p.laid_mm; }),
            between([](const ChartPoint& p) { return p.stretch; })};
}

}  // namespace backrow::figures
