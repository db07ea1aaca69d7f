#pragma once

// Gaussian chance that is the same on every machine, in any order and on any number of threads: the
// draw with a given number depends on the seed and that number alone. Nothing but whole numbers and
// the operations that IEEE 754 rounds exactly (+ − × ÷ √) is used, and this layer is compiled
// without fused operations, so no library or compiler has a say in the last digit.

#include "base/splitmix64.h"

#include <bit>
#include <cmath>
#include <cstdint>
#include <numbers>

namespace backrow::plan {

struct TwoNormals {
    double first;
    double second;
};

/// ln(n/2³²) for 1 ≤ n ≤ 2³², by ln m = 2 artanh((m − 1)/(m + 1)) on √½ ≤ m < √2. The series is
/// cut off at z¹⁷, where what is left is below 1e-15.
[[nodiscard]] inline double log_of_share(std::uint64_t n) noexcept {
    constexpr std::uint64_t mantissa_mask = (std::uint64_t{1} << 52) - 1;
    constexpr std::uint64_t exponent_of_one = std::uint64_t{1023} << 52;
    const auto bits = std::bit_cast<std::uint64_t>(static_cast<double>(n));
    double mantissa = std::bit_cast<double>((bits & mantissa_mask) | exponent_of_one);
    double exponent = static_cast<double>(static_cast<int>(bits >> 52) - 1023 - 32);
    const bool upper = mantissa >= std::numbers::sqrt2;
    mantissa = upper ? mantissa * 0.5 : mantissa;
    exponent = upper ? exponent + 1 : exponent;
    const double z = (mantissa - 1) / (mantissa + 1);
    const double q = z * z;
    double series = 1.0 / 17;
    series = series * q + 1.0 / 15;
    series = series * q + 1.0 / 13;
    series = series * q + 1.0 / 11;
    series = series * q + 1.0 / 9;
    series = series * q + 1.0 / 7;
    series = series * q + 1.0 / 5;
    series = series * q + 1.0 / 3;
    series = series * q + 1.0;
    return exponent * std::numbers::ln2 + 2 * z * series;
}

/// Cosine and sine of 2π·n/2³²: a quarter of the circle and a rest within ±π/4, for which the
/// Taylor series to x¹⁵ leave less than 1e-15.
[[nodiscard]] inline TwoNormals cosine_and_sine(std::uint32_t n) noexcept {
    const std::uint32_t quarter = (n + (std::uint32_t{1} << 29)) >> 30;
    const auto rest = static_cast<std::int32_t>(n - (quarter << 30));
    const double x = rest * (std::numbers::pi * 0x1p-31);
    const double q = x * x;
    double sine = -1.0 / 1307674368000;
    sine = sine * q + 1.0 / 6227020800;
    sine = sine * q - 1.0 / 39916800;
    sine = sine * q + 1.0 / 362880;
    sine = sine * q - 1.0 / 5040;
    sine = sine * q + 1.0 / 120;
    sine = sine * q - 1.0 / 6;
    sine = sine * q * x + x;
    double cosine = -1.0 / 87178291200;
    cosine = cosine * q + 1.0 / 479001600;
    cosine = cosine * q - 1.0 / 3628800;
    cosine = cosine * q + 1.0 / 40320;
    cosine = cosine * q - 1.0 / 720;
    cosine = cosine * q + 1.0 / 24;
    cosine = cosine * q - 1.0 / 2;
    cosine = cosine * q + 1.0;
    const bool swaps = (quarter & 1U) != 0;
    const double across = swaps ? sine : cosine;
    const double up = swaps ? cosine : sine;
    return {((quarter + 1U) & 2U) != 0 ? -across : across, (quarter & 2U) != 0 ? -up : up};
}

/// Two independent draws, mean 0 and standard deviation 1, none beyond 6.7.
///
/// number  which pair, any number from 0
/// source  [BOXMULLER1958] on the counted stream of [STEELE2014]
[[nodiscard]] inline TwoNormals two_normals(std::uint64_t seed, std::uint64_t number) noexcept {
    const std::uint64_t start = splitmix64(seed + counter_step);
    const std::uint64_t bits = splitmix64(start + (number + 1) * counter_step);
    const double radius = std::sqrt(-2 * log_of_share((bits >> 32) + 1));
    const auto [cosine, sine] = cosine_and_sine(static_cast<std::uint32_t>(bits));
    return {radius * cosine, radius * sine};
}

}  // namespace backrow::plan
