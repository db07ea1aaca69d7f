#include "measure/added_blur.h"

#include "measure/smoothed.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <utility>
#include <vector>

namespace backrow::measure {
namespace {

constexpr int least_compared_px = 16;

/// Offset, gain; shift right and down, growth, turn; the three of the covariance.
constexpr std::size_t unknowns = 9;
constexpr std::size_t of_light = 1;
constexpr std::size_t of_shift = 2;
constexpr std::size_t of_blur = 6;
using Row = std::array<double, unknowns>;

/// Solves in place, the largest pivot of each column first, and inverts; false where that cannot
/// be.
bool invert(std::array<Row, unknowns>& matrix) {
    std::array<Row, unknowns> inverse{};
    for (std::size_t i = 0; i < unknowns; ++i)
        inverse[i][i] = 1;
    for (std::size_t column = 0; column < unknowns; ++column) {
        std::size_t pivot = column;
        for (std::size_t row = column + 1; row < unknowns; ++row)
            if (std::abs(matrix[row][column]) > std::abs(matrix[pivot][column]))
                pivot = row;
        if (!(std::abs(matrix[pivot][column]) > 1e-14))
            return false;
        std::swap(matrix[pivot], matrix[column]);
        std::swap(inverse[pivot], inverse[column]);
        const double by = 1 / matrix[column][column];
        for (std::size_t i = 0; i < unknowns; ++i) {
            matrix[column][i] *= by;
            inverse[column][i] *= by;
        }
        for (std::size_t row = 0; row < unknowns; ++row) {
            const double share = matrix[row][column];
            if (row == column || share == 0)
                continue;
            for (std::size_t i = 0; i < unknowns; ++i) {
                matrix[row][i] -= share * matrix[column][i];
                inverse[row][i] -= share * inverse[column][i];
            }
        }
    }
    matrix = inverse;
    return true;
}

struct Equations {
    std::vector<Row> rows;
    std::vector<double> rights;
};

/// One for each pixel but those at the border.
Equations compared(const Image<float>& one, const Image<float>& other) {
    Equations equations;
    const double middle_x = (one.width_px() - 1) / 2.0;
    const double middle_y = (one.height_px() - 1) / 2.0;
    for (int y = 1; y + 1 < one.height_px(); ++y)
        for (int x = 1; x + 1 < one.width_px(); ++x) {
            const auto mean = [&](int i, int j) {
                return (one.at(x + i, y + j) + other.at(x + i, y + j)) / 2.0;
            };
            const double here = mean(0, 0);
            const double slope_x = (mean(1, 0) - mean(-1, 0)) / 2;
            const double slope_y = (mean(0, 1) - mean(0, -1)) / 2;
            const double from_x = x - middle_x;
            const double from_y = y - middle_y;
            equations.rows.push_back(
                {1, here, -slope_x, -slope_y, -(from_x * slope_x + from_y * slope_y),
                 from_y * slope_x - from_x * slope_y, (mean(1, 0) - 2 * here + mean(-1, 0)) / 2,
                 (mean(0, 1) - 2 * here + mean(0, -1)) / 2,
                 (mean(1, 1) - mean(1, -1) - mean(-1, 1) + mean(-1, -1)) / 4});
            equations.rights.push_back(static_cast<double>(other.at(x, y)) - one.at(x, y));
        }
    return equations;
}

struct Fit {
    Row value{};
    std::array<Row, unknowns> covariance{};
    double unlike = 0;
};

double product(const Row& one, const Row& other) {
    double sum = 0;
    for (std::size_t i = 0; i < unknowns; ++i)
        sum += one[i] * other[i];
    return sum;
}

/// One round of least squares.
///
/// alike  pixels that tell no more than one
std::optional<Fit> fitted_once(const Equations& equations, const std::vector<double>& weight,
                               double alike) {
    std::array<Row, unknowns> matrix{};
    Row right{};
    for (std::size_t n = 0; n < weight.size(); ++n) {
        const Row& row = equations.rows[n];
        for (std::size_t i = 0; i < unknowns; ++i) {
            right[i] += weight[n] * row[i] * equations.rights[n];
            for (std::size_t j = 0; j < unknowns; ++j)
                matrix[i][j] += weight[n] * row[i] * row[j];
        }
    }
    // Columns of one size, lest the pivots be judged by their units.
    Row size{};
    for (std::size_t i = 0; i < unknowns; ++i) {
        size[i] = std::sqrt(matrix[i][i]);
        if (!(size[i] > 1e-9))
            return std::nullopt;
    }
    const auto to_one_size = [&] {
        for (std::size_t i = 0; i < unknowns; ++i)
            for (std::size_t j = 0; j < unknowns; ++j)
                matrix[i][j] /= size[i] * size[j];
    };
    to_one_size();
    if (!invert(matrix))
        return std::nullopt;
    to_one_size();
    Fit fit;
    for (std::size_t i = 0; i < unknowns; ++i)
        fit.value[i] = product(matrix[i], right);
    double squares = 0;
    double all = 0;
    double light = 0;
    double light_squares = 0;
    for (std::size_t n = 0; n < weight.size(); ++n) {
        const double left = equations.rights[n] - product(fit.value, equations.rows[n]);
        squares += weight[n] * left * left;
        all += weight[n];
        const double here = equations.rows[n][of_light];
        light += weight[n] * here;
        light_squares += weight[n] * here * here;
    }
    fit.unlike = squares / std::max(1e-12, light_squares - light * light / all);
    fit.covariance = matrix;
    for (Row& row : fit.covariance)
        for (double& value : row)
            value *= squares / all * alike;
    return fit;
}

/// What does not fit, such as a lid that is shut in one of both, counts less and less.
std::optional<Fit> fitted(const Equations& equations, double alike) {
    std::vector<double> weight(equations.rows.size(), 1);
    std::optional<Fit> fit;
    constexpr int rounds = 4;
    for (int round = 0; round < rounds; ++round) {
        fit = fitted_once(equations, weight, alike);
        if (!fit)
            return std::nullopt;
        std::vector<double> left(weight.size());
        for (std::size_t n = 0; n < weight.size(); ++n)
            left[n] = std::abs(equations.rights[n] - product(fit->value, equations.rows[n]));
        std::vector<double> sorted = left;
        const auto middle = sorted.begin() + static_cast<std::ptrdiff_t>(sorted.size() / 2);
        std::nth_element(sorted.begin(), middle, sorted.end());
        const double usual = 3 * *middle + 1e-9;
        for (std::size_t n = 0; n < weight.size(); ++n)
            weight[n] = 1 / (1 + left[n] * left[n] / (usual * usual));
    }
    return fit;
}

}  // namespace

double AddedBlur::most_px2() const noexcept {
    return mean_px2() + std::hypot((across_px2 - down_px2) / 2, both_px2);
}

double AddedBlur::least_px2() const noexcept {
    return mean_px2() - std::hypot((across_px2 - down_px2) / 2, both_px2);
}

double AddedBlur::direction_deg() const noexcept {
    return std::atan2(-2 * both_px2, across_px2 - down_px2) / 2 * 180 / std::numbers::pi;
}

std::optional<AddedBlur> added_blur(const Image<float>& first, const Image<float>& second,
                                    const PixelBox& box) {
    const int side_px = std::min(box.width_px, box.height_px);
    if (side_px < least_compared_px || first.width_px() != second.width_px() ||
        first.height_px() != second.height_px())
        return std::nullopt;
    AddedBlur added;
    // From coarse to fine: first the shift, then what the blur is.
    double width_px = side_px / 8.0;
    constexpr int rounds = 10;
    constexpr int rounds_of_shift = 3;
    for (int round = 0; round < rounds; ++round) {
        // What is known already is evened out, so that only a little remains to be told.
        const double wide_px2 = width_px * width_px;
        const bool is_blur_known = round >= rounds_of_shift;
        const double across_px2 = is_blur_known ? added.across_px2 : 0;
        const double down_px2 = is_blur_known ? added.down_px2 : 0;
        const int right_px = static_cast<int>(std::lround(added.right_px));
        const int down_px = static_cast<int>(std::lround(added.down_px));
        const PixelBox here{box.left - 1, box.top - 1, box.width_px + 2, box.height_px + 2};
        const PixelBox there{here.left + right_px, here.top + down_px, here.width_px,
                             here.height_px};
        const Equations equations =
            compared(smoothed(first, here, wide_px2 + std::max(across_px2, 0.0),
                              wide_px2 + std::max(down_px2, 0.0)),
                     smoothed(second, there, wide_px2 - std::min(across_px2, 0.0),
                              wide_px2 - std::min(down_px2, 0.0)));
        const auto fit = fitted(equations, 4 * std::numbers::pi * wide_px2);
        if (!fit)
            return std::nullopt;
        const auto nearby = [&](std::size_t i, double known, double step) {
            return known + std::clamp(fit->value[i], -step, step);
        };
        const double farthest_px = side_px / 3.0;
        added.right_px =
            std::clamp(nearby(of_shift, right_px, width_px), -farthest_px, farthest_px);
        added.down_px =
            std::clamp(nearby(of_shift + 1, down_px, width_px), -farthest_px, farthest_px);
        added.across_px2 = nearby(of_blur, across_px2, 2 * wide_px2);
        added.down_px2 = nearby(of_blur + 1, down_px2, 2 * wide_px2);
        added.both_px2 = fit->value[of_blur + 2];
        added.unlike = fit->unlike;
        const auto& covariance = fit->covariance;
        added.error_px2 = std::sqrt(std::max(0.0, covariance[of_blur][of_blur] +
                                                      covariance[of_blur + 1][of_blur + 1] +
                                                      2 * covariance[of_blur][of_blur + 1])) /
                          2;
        const double added_px =
            std::sqrt(std::max(std::abs(added.across_px2), std::abs(added.down_px2)));
        width_px = std::min(side_px / 8.0, std::max({1.0, 0.7 * added_px, 0.7 * width_px}));
    }
    return added;
}

}  // namespace backrow::measure
