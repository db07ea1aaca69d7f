#include "measure/edge_profile.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace backrow::measure {
namespace {

int bins_to_a_pixel(double lean) {
    constexpr double least_lean = 1 / 7.5;
    return std::abs(lean) > least_lean
               ? std::max(bins_per_px, static_cast<int>(std::lround(1 / std::abs(lean))))
               : bins_per_px;
}

}  // namespace

std::vector<ProfileBin> edge_profile(const Image<float>& box, const EdgeLine& line) {
    const double cosine = 1 / std::hypot(1.0, line.lean);
    const int per_px = bins_to_a_pixel(line.lean);
    const double farthest_px = box.width_px() + std::abs(line.lean) * box.height_px();
    const int half = static_cast<int>(std::ceil(farthest_px * per_px)) + 1;
    std::vector<ProfileBin> bins(static_cast<std::size_t>(2 * half + 1));
    const auto for_each_pixel = [&](auto what) {
        for (int y = 0; y < box.height_px(); ++y) {
            const double edge_px = line.x_px(y + 0.5);
            if (!(std::abs(edge_px) < farthest_px))
                continue;
            for (int x = 0; x < box.width_px(); ++x) {
                const double from_edge_px = x + 0.5 - edge_px;
                const double nth =
                    std::clamp(std::round(from_edge_px * per_px), -1.0 * half, 1.0 * half);
                what(bins[static_cast<std::size_t>(static_cast<int>(nth) + half)],
                     from_edge_px * cosine, static_cast<double>(box.at(x, y)));
            }
        }
    };
    for_each_pixel([](ProfileBin& bin, double distance_px, double light) {
        ++bin.pixels;
        bin.at_px += distance_px;
        bin.light += light;
    });
    for (ProfileBin& bin : bins)
        if (bin.pixels > 0) {
            bin.at_px /= bin.pixels;
            bin.light /= bin.pixels;
        }
    for_each_pixel([](ProfileBin& bin, double distance_px, double light) {
        bin.spread_px2 += (distance_px - bin.at_px) * (distance_px - bin.at_px) / bin.pixels;
        bin.light_spread += (light - bin.light) * (light - bin.light) / bin.pixels;
    });
    const double full = static_cast<double>(box.height_px()) / per_px;
    std::erase_if(bins, [&](const ProfileBin& bin) { return 4 * bin.pixels < full; });
    return bins;
}

}  // namespace backrow::measure
