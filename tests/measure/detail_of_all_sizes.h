#pragma once

// Pictures with detail of all sizes, sharp or blurred by a disc.

#include "synthetic_edge.h"

#include "base/image.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <vector>

namespace backrow::measure {

/// Discs that fall on one another, small ones far more often, as leaves on a path: edges of all
/// sizes and contrasts, each pixel a mean over four by four places.
inline Image<float> leaves(int side_px, std::uint64_t seed) {
    constexpr int finer = 4;
    Lots lots{seed};
    Image<float> fine(side_px * finer, side_px * finer, 0.5f);
    for (int leaf = 0; leaf < 6000; ++leaf) {
        // As many of each size that they cover alike: radii fall off as r⁻³.
        const double radius = finer * 1.0 / std::sqrt(lots.between(0.0005, 1));
        const double x = lots.between(0, fine.width_px());
        const double y = lots.between(0, fine.height_px());
        const auto light = static_cast<float>(lots.between(0.15, 0.85));
        for (int j = std::max(0, static_cast<int>(y - radius));
             j < std::min(fine.height_px(), static_cast<int>(y + radius) + 1); ++j)
            for (int i = std::max(0, static_cast<int>(x - radius));
                 i < std::min(fine.width_px(), static_cast<int>(x + radius) + 1); ++i)
                if (std::hypot(i - x, j - y) < radius)
                    fine.at(i, j) = light;
    }
    Image<float> picture(side_px, side_px);
    for (int y = 0; y < side_px; ++y)
        for (int x = 0; x < side_px; ++x)
            for (int j = 0; j < finer; ++j)
                for (int i = 0; i < finer; ++i)
                    picture.at(x, y) += fine.at(x * finer + i, y * finer + j) / (finer * finer);
    return picture;
}

/// The mean over a disc about each pixel, by eight places in each pixel's width.
inline Image<float> blurred_by_disc(const Image<float>& picture, double disc_px) {
    struct Share {
        int x, y;
        float weight;
    };
    const int reach = static_cast<int>(disc_px / 2 + 1);
    std::vector<Share> shares;
    float sum = 0;
    for (int y = -reach; y <= reach; ++y)
        for (int x = -reach; x <= reach; ++x) {
            int inside = 0;
            for (int j = 0; j < 8; ++j)
                for (int i = 0; i < 8; ++i)
                    inside += std::hypot(x + (i - 3.5) / 8, y + (j - 3.5) / 8) <= disc_px / 2;
            if (inside > 0)
                shares.push_back({x, y, static_cast<float>(inside)});
            sum += static_cast<float>(inside);
        }
    Image<float> blurred(picture.width_px(), picture.height_px());
    for (int y = 0; y < picture.height_px(); ++y)
        for (int x = 0; x < picture.width_px(); ++x)
            for (const Share& share : shares)
                blurred.at(x, y) += share.weight / sum *
                                    picture.at(std::clamp(x + share.x, 0, picture.width_px() - 1),
                                               std::clamp(y + share.y, 0, picture.height_px() - 1));
    return blurred;
}

}  // namespace backrow::measure
