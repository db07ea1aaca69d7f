#pragma once

// A smooth curve through given points that never overshoots them: where the points rise, so does
// the curve. Growth, silhouettes and the fitting of heads all use it.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

namespace backrow::figures {

/// Cubic pieces whose slopes are limited to keep every piece monotone.
///
/// at, value   N ≥ 2 points, at rising
/// returns     beyond the ends: the straight line of the end slope
/// source      [FRITSCH] Fritsch and Carlson, Monotone Piecewise Cubic Interpolation (1980); the
///             slope is the harmonic mean of Fritsch and Butland (1984)
template <std::size_t N>
class SmoothCurve {
public:
    constexpr SmoothCurve(const std::array<double, N>& at, const std::array<double, N>& value)
        : at_{at}, value_{value} {
        std::array<double, N - 1> rise{};
        for (std::size_t i = 0; i + 1 < N; ++i)
            rise[i] = (value[i + 1] - value[i]) / (at[i + 1] - at[i]);
        slope_[0] = rise[0];
        slope_[N - 1] = rise[N - 2];
        for (std::size_t i = 1; i + 1 < N; ++i)
            slope_[i] = rise[i - 1] * rise[i] > 0
                            ? 2 * rise[i - 1] * rise[i] / (rise[i - 1] + rise[i])
                            : 0.0;
    }

    [[nodiscard]] constexpr double operator()(double x) const noexcept {
        if (x <= at_[0])
            return value_[0] + (x - at_[0]) * slope_[0];
        if (x >= at_[N - 1])
            return value_[N - 1] + (x - at_[N - 1]) * slope_[N - 1];
        std::size_t i = 0;
        while (x > at_[i + 1])
            ++i;
        const double width = at_[i + 1] - at_[i];
        const double t = (x - at_[i]) / width;
        const double s = 1 - t;
        return s * s * ((1 + 2 * t) * value_[i] + t * width * slope_[i]) +
               t * t * ((1 + 2 * s) * value_[i + 1] - s * width * slope_[i + 1]);
    }

    /// The same curve, held at its end values beyond the ends.
    [[nodiscard]] constexpr double held(double x) const noexcept {
        return (*this)(std::clamp(x, at_[0], at_[N - 1]));
    }

private:
    std::array<double, N> at_;
    std::array<double, N> value_;
    std::array<double, N> slope_{};
};

}  // namespace backrow::figures
