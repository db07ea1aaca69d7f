#include "measure/difference.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <cstdint>

namespace backrow::measure {

Difference difference(const Image<Rgb8>& one, const Image<Rgb8>& other) {
    assert(one.width_px() == other.width_px() && one.height_px() == other.height_px());
    const int width = one.width_px();
    const int height = one.height_px();
    Difference found;
    double sum = 0;
    const auto square = [](std::uint8_t a, std::uint8_t b) {
        const int apart = int{a} - int{b};
        return apart * apart;
    };
    for (int top = 0; top < height; top += block_px)
        for (int left = 0; left < width; left += block_px) {
            const int right = std::min(width, left + block_px);
            const int bottom = std::min(height, top + block_px);
            std::int64_t in_block = 0;
            for (int y = top; y < bottom; ++y)
                for (int x = left; x < right; ++x) {
                    const Rgb8& a = one.at(x, y);
                    const Rgb8& b = other.at(x, y);
                    in_block += square(a.r, b.r) + square(a.g, b.g) + square(a.b, b.b);
                }
            const auto count = 3.0 * (right - left) * (bottom - top);
            found.worst_mean_square =
                std::max(found.worst_mean_square, static_cast<double>(in_block) / count);
            sum += static_cast<double>(in_block);
        }
    if (!one.empty())
        found.mean_square = sum / (3.0 * width * height);
    return found;
}

double decibels(double mean_square) noexcept {
    return 10.0 * std::log10(255.0 * 255.0 / mean_square);
}

}  // namespace backrow::measure
