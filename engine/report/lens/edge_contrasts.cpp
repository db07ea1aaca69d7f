#include "report/lens/edge_contrasts.h"

#include "base/units.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <map>
#include <utility>

namespace backrow::report {
namespace {

constexpr int height_steps = 10;
constexpr int share_steps = 3;
// What noise does not tell: how evenly the chart was printed and lit, how squarely it hung.
constexpr double least_error = 0.01;
constexpr double most_cy_per_px = 0.6;

/// Edges that are one measure.
struct Gathered {
    double heights = 0;
    double shares = 0;
    double squared_errors = 0;
    std::vector<double> mtf;  ///< Sums, in steps of mtf_step_cy_per_px.
    int count = 0;

    void add(double height, double share, const measure::EdgeSharpness& edge) {
        heights += height;
        shares += share;
        const double error = edge.mtf50_error_cy_per_px / edge.mtf50_cy_per_px / 2;
        squared_errors += error * error;
        mtf.resize(edge.mtf.size());
        for (std::size_t i = 0; i < edge.mtf.size(); ++i)
            mtf[i] += edge.mtf[i].mtf;
        ++count;
    }
};

/// cos² of the angle between the radius and the way across the edge; in the middle there is no
/// radius, and neither counts more.
double tangential_share(const FrameEdges& frame, const measure::FrameEdge& edge) {
    const double x = edge.box.left + edge.box.width_px / 2.0 - frame.width_px / 2.0;
    const double y = edge.box.top + edge.box.height_px / 2.0 - frame.height_px / 2.0;
    const double radius2 = x * x + y * y;
    const double turn = rad_from_deg(edge.sharpness->across_deg);
    const double along = x * std::cos(turn) + y * std::sin(turn);
    return radius2 > 1 ? along * along / radius2 : 0.5;
}

void add_contrasts(const Gathered& edges, double f_number, double pixel_mm,
                   std::vector<optics::MeasuredContrast>& all) {
    const double n = edges.count;
    std::size_t i = 1;
    for (const double wanted : {0.75, 0.5, 0.3}) {
        while (i + 1 < edges.mtf.size() && edges.mtf[i] / n > wanted)
            ++i;
        const double cy_per_px = static_cast<double>(i) * measure::mtf_step_cy_per_px;
        if (i + 1 >= edges.mtf.size() || cy_per_px > most_cy_per_px)
            return;
        all.push_back({.f_number = f_number,
                       .image_height = edges.heights / n,
                       .tangential_share = edges.shares / n,
                       .cy_per_mm = cy_per_px / pixel_mm,
                       .mtf = std::clamp(edges.mtf[i] / n, 0.0, 1.0),
                       .error = std::hypot(least_error, std::sqrt(edges.squared_errors) / n)});
        ++i;
    }
}

}  // namespace

std::vector<optics::MeasuredContrast> edge_contrasts(const std::vector<FrameEdges>& frames,
                                                     double pixel_mm) {
    std::vector<optics::MeasuredContrast> all;
    for (const FrameEdges& frame : frames) {
        std::map<std::pair<int, int>, Gathered> cells;
        for (const measure::FrameEdge& edge : frame.edges)
            if (edge.sharpness) {
                const double share = tangential_share(frame, edge);
                cells[{static_cast<int>(edge.image_height * height_steps),
                       static_cast<int>(std::lround(share * share_steps))}]
                    .add(edge.image_height, share, *edge.sharpness);
            }
        for (const auto& [place, edges] : cells)
            add_contrasts(edges, frame.f_number.value(), pixel_mm, all);
    }
    return all;
}

std::vector<optics::MeasuredLight> edge_light(const std::vector<FrameEdges>& frames) {
    std::vector<optics::MeasuredLight> all;
    for (const FrameEdges& frame : frames)
        for (const measure::FrameEdge& edge : frame.edges)
            if (edge.sharpness)
                all.push_back({.f_number = frame.f_number.value(),
                               .image_height = edge.image_height,
                               .light = edge.sharpness->bright});
    return all;
}

}  // namespace backrow::report
