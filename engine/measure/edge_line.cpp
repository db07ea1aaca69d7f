#include "measure/edge_line.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace backrow::measure {
namespace {

struct RowEdge {
    double y_px;
    double x_px;
};

double variance(const std::vector<double>& values) {
    double sum = 0;
    double squares = 0;
    for (const double value : values) {
        sum += value;
        squares += value * value;
    }
    const auto count = static_cast<double>(values.size());
    return squares / count - sum / count * (sum / count);
}

/// Least squares, rows that lie far off left out in a second round: a scratch or a hot pixel.
std::optional<EdgeLine> fitted(std::vector<RowEdge> rows) {
    EdgeLine line;
    for (int round = 0; round < 2; ++round) {
        if (rows.size() < 4)
            return std::nullopt;
        const auto count = static_cast<double>(rows.size());
        double mean_x = 0;
        double mean_y = 0;
        for (const RowEdge& row : rows) {
            mean_x += row.x_px / count;
            mean_y += row.y_px / count;
        }
        double yy = 0;
        double xy = 0;
        for (const RowEdge& row : rows) {
            yy += (row.y_px - mean_y) * (row.y_px - mean_y);
            xy += (row.y_px - mean_y) * (row.x_px - mean_x);
        }
        if (!(yy > 0))
            return std::nullopt;
        line.lean = xy / yy;
        line.at_px = mean_x - line.lean * mean_y;

        // What is left, against the parabola that rises by one from the middle to the ends and has
        // no mean: by so much does the edge bulge.
        const double half = std::sqrt(3 * yy / count);
        double square = 0;
        double against_bow = 0;
        double bows = 0;
        for (const RowEdge& row : rows) {
            const double off = row.x_px - line.x_px(row.y_px);
            const double along = (row.y_px - mean_y) / half;
            const double bow = along * along - 1.0 / 3;
            square += off * off;
            against_bow += off * bow;
            bows += bow * bow;
        }
        line.scatter_px = std::sqrt(square / count);
        line.sagitta_px = against_bow / bows;
        line.sagitta_error_px = line.scatter_px / std::sqrt(bows);
        constexpr double far_off = 3;  // standard deviations
        if (round == 0)
            std::erase_if(rows, [&](const RowEdge& row) {
                return std::abs(row.x_px - line.x_px(row.y_px)) > far_off * line.scatter_px + 1e-6;
            });
    }
    return line;
}

}  // namespace

bool edge_is_upright(const Image<float>& box) noexcept {
    std::vector<double> columns(static_cast<std::size_t>(box.width_px()));
    std::vector<double> rows(static_cast<std::size_t>(box.height_px()));
    for (int y = 0; y < box.height_px(); ++y)
        for (int x = 0; x < box.width_px(); ++x) {
            columns[static_cast<std::size_t>(x)] += box.at(x, y) / box.height_px();
            rows[static_cast<std::size_t>(y)] += box.at(x, y) / box.width_px();
        }
    return variance(columns) >= variance(rows);
}

std::optional<EdgeLine> rough_edge_line(const Image<float>& box) {
    std::vector<float> sorted = box.pixels();
    const auto quantile = [&](double share) {
        const auto nth = sorted.begin() + static_cast<std::ptrdiff_t>(
                                              share * static_cast<double>(sorted.size() - 1));
        std::nth_element(sorted.begin(), nth, sorted.end());
        return static_cast<double>(*nth);
    };
    const double dark = quantile(0.1);
    const double bright = quantile(0.9);
    if (!(bright > dark))
        return std::nullopt;

    double right_less_left = 0;
    for (int y = 0; y < box.height_px(); ++y)
        for (int x = 0; x < box.width_px() / 2; ++x)
            right_less_left += box.at(box.width_px() - 1 - x, y) - box.at(x, y);

    // The area under a step says where it is without a derivative, and so nearly without noise.
    std::vector<RowEdge> rows;
    for (int y = 0; y < box.height_px(); ++y) {
        double bright_px = 0;
        for (int x = 0; x < box.width_px(); ++x)
            bright_px += std::clamp((box.at(x, y) - dark) / (bright - dark), 0.0, 1.0);
        const double at = right_less_left > 0 ? box.width_px() - bright_px : bright_px;
        rows.push_back({y + 0.5, at});
    }
    return fitted(std::move(rows));
}

std::optional<EdgeLine> centroid_edge_line(const Image<float>& box, const EdgeLine& before,
                                           double reach_px) {
    std::vector<RowEdge> rows;
    for (int y = 0; y < box.height_px(); ++y) {
        const double expected = before.x_px(y + 0.5);
        // Derivatives lie between two pixels, at whole numbers.
        const int first = static_cast<int>(std::ceil(expected - reach_px));
        const int last = static_cast<int>(std::floor(expected + reach_px));
        if (first < 1 || last > box.width_px() - 1)
            continue;
        double moment = 0;
        for (int x = first; x <= last; ++x)
            moment += (x - expected) * (box.at(x, y) - box.at(x - 1, y));
        const double step = box.at(last, y) - box.at(first - 1, y);
        if (step != 0 && std::abs(moment / step) < reach_px)
            rows.push_back({y + 0.5, expected + moment / step});
    }
    if (2 * rows.size() < static_cast<std::size_t>(box.height_px()))
        return std::nullopt;
    return fitted(std::move(rows));
}

}  // namespace backrow::measure
