#include "measure/spot.h"

#include <algorithm>
#include <cmath>

namespace backrow::measure {
namespace {

/// Calls what(x, y, light) for every pixel, where a pixel is at its middle.
template <class What>
void for_each_pixel(const Image<float>& picture, What what) {
    for (int y = 0; y < picture.height_px(); ++y)
        for (int x = 0; x < picture.width_px(); ++x)
            what(x + 0.5, y + 0.5, static_cast<double>(picture.at(x, y)));
}

}  // namespace

std::optional<Spot> measure_spot(const Image<float>& picture) {
    Spot spot;
    for_each_pixel(picture, [&](double x, double y, double light) {
        spot.light += light;
        spot.centre_x_px += light * x;
        spot.centre_y_px += light * y;
    });
    if (!(spot.light > 0))
        return std::nullopt;
    spot.centre_x_px /= spot.light;
    spot.centre_y_px /= spot.light;

    // A second walk about the centre: E[r²] − centre² would lose small spots far from the corner.
    for_each_pixel(picture, [&](double x, double y, double light) {
        const double across = x - spot.centre_x_px;
        const double down = y - spot.centre_y_px;
        spot.second_moment_px2 += light * (across * across + down * down);
    });
    spot.second_moment_px2 /= spot.light;
    return spot;
}

double disc_diameter_px(const Spot& spot, const Spot& source) noexcept {
    return 2 * std::sqrt(2 * std::max(0.0, spot.second_moment_px2 - source.second_moment_px2));
}

bool touches_border(const Image<float>& picture, int margin_px) noexcept {
    const int width_px = picture.width_px();
    const int height_px = picture.height_px();
    for (int y = 0; y < height_px; ++y) {
        const bool whole_row = y < margin_px || y >= height_px - margin_px;
        for (int x = 0; x < width_px; ++x)
            if ((whole_row || x < margin_px || x >= width_px - margin_px) && picture.at(x, y) > 0)
                return true;
    }
    return false;
}

}  // namespace backrow::measure
