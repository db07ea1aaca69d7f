#include "measure/smoothed.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

namespace backrow::measure {
namespace {

/// Gaussian weights from the middle outward.
std::vector<float> weights(double variance_px2) {
    const int reach = static_cast<int>(std::ceil(3.5 * std::sqrt(variance_px2)));
    std::vector<float> half;
    double sum = 0;
    for (int i = 0; i <= reach; ++i) {
        half.push_back(static_cast<float>(std::exp(-i * i / (2 * variance_px2))));
        sum += (i == 0 ? 1 : 2) * half.back();
    }
    for (float& weight : half)
        weight = static_cast<float>(weight / sum);
    return half;
}

}  // namespace

Image<float> smoothed(const Image<float>& picture, const PixelBox& part, double across_px2,
                      double down_px2) {
    const std::vector<float> across = weights(across_px2);
    const std::vector<float> down = weights(down_px2);
    const int reach = static_cast<int>(down.size()) - 1;
    Image<float> rows(part.width_px, part.height_px + 2 * reach);
    for (int y = 0; y < rows.height_px(); ++y) {
        const int from_y = std::clamp(part.top + y - reach, 0, picture.height_px() - 1);
        for (int x = 0; x < part.width_px; ++x) {
            const auto at = [&](int i) {
                return picture.at(std::clamp(part.left + x + i, 0, picture.width_px() - 1), from_y);
            };
            float sum = across[0] * at(0);
            for (int i = 1; i < static_cast<int>(across.size()); ++i)
                sum += across[static_cast<std::size_t>(i)] * (at(i) + at(-i));
            rows.at(x, y) = sum;
        }
    }
    Image<float> result(part.width_px, part.height_px);
    for (int y = 0; y < part.height_px; ++y)
        for (int x = 0; x < part.width_px; ++x) {
            float sum = down[0] * rows.at(x, y + reach);
            for (int i = 1; i <= reach; ++i)
                sum += down[static_cast<std::size_t>(i)] *
                       (rows.at(x, y + reach + i) + rows.at(x, y + reach - i));
            result.at(x, y) = sum;
        }
    return result;
}

}  // namespace backrow::measure
