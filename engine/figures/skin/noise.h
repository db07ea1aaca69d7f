#pragma once

// Noise for pictures laid over surfaces: the same numbers on every machine.

#include "figures/skin/skin_detail.h"

#include <array>
#include <cstdint>

namespace backrow::figures {

/// 0 … 1, unrelated between neighbouring cells; k tells layers apart.
[[nodiscard]] inline float cell_share(int x, int y, int k) noexcept {
    std::uint32_t h = static_cast<std::uint32_t>(x) * 0x9e3779b9u +
                      static_cast<std::uint32_t>(y) * 0x85ebca6bu +
                      static_cast<std::uint32_t>(k) * 0xc2b2ae35u;
    h = (h ^ (h >> 16)) * 0x7feb352du;
    h = (h ^ (h >> 15)) * 0x846ca68bu;
    return static_cast<float>(static_cast<int>((h ^ (h >> 16)) & 0xffffffu)) / 16777215.0f;
}

/// The whole number below. |x| < 2³¹
[[nodiscard]] inline int whole_below(float x) noexcept {
    const int towards_zero = static_cast<int>(x);
    return towards_zero - static_cast<int>(x < static_cast<float>(towards_zero));
}

/// −1 … 1, smooth, with hills about a cell wide. across: after so many cells it repeats.
[[nodiscard]] inline float cell_noise(float x, float y, int k, int across) noexcept {
    const int y0 = whole_below(y);
    const auto left = static_cast<float>(whole_below(x));
    const float u = x - left, v = y - static_cast<float>(y0);
    // Exact: nothing is 2²⁴ cells away.
    const auto width = static_cast<float>(across);
    const int x0 = static_cast<int>(left - width * static_cast<float>(whole_below(left / width)));
    const int x1 = x0 + 1 == across ? 0 : x0 + 1;
    const float su = u * u * (3 - 2 * u), sv = v * v * (3 - 2 * v);
    const float a = cell_share(x0, y0, k), b = cell_share(x1, y0, k);
    const float c = cell_share(x0, y0 + 1, k), d = cell_share(x1, y0 + 1, k);
    const float top = a + (b - a) * su, bottom = c + (d - c) * su;
    return 2 * (top + (bottom - top) * sv) - 1;
}

/// A number for each texel of a row of the sheet.
using SheetRow = std::array<float, sheet::width>;

/// The same along a row, several times as fast as one by one. Places are per_unit · (x, y).
[[nodiscard]] SheetRow cell_noise(const SheetRow& x, const SheetRow& y, float per_unit, int k,
                                  int across) noexcept;

}  // namespace backrow::figures
