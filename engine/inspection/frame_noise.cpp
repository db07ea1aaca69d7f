#include "inspection/frame_noise.h"

#include "inspection/face_region.h"

#include "measure/noise_variance.h"

#include <algorithm>
#include <utility>
#include <vector>

namespace backrow::inspection {
namespace {

/// More tell no more.
constexpr int most_across = 64;

/// Black and white have none, however much there is elsewhere.
constexpr float least_light = 0.15f;
constexpr float most_light = 0.9f;

}  // namespace

double frame_noise(const Image<Rgb8>& shown) {
    constexpr int side_px = measure::noise_square_px;
    const int step_px =
        std::max(side_px, std::max(shown.width_px(), shown.height_px()) / most_across);
    std::vector<Image<float>> squares;
    for (int top = 0; top + side_px <= shown.height_px(); top += step_px)
        for (int left = 0; left + side_px <= shown.width_px(); left += step_px) {
            Image<float> square = brightness_of(shown, {left, top, side_px, side_px});
            const auto [darkest, brightest] = std::ranges::minmax(square.pixels());
            if (darkest > least_light && brightest < most_light)
                squares.push_back(std::move(square));
        }
    return measure::noise_variance(squares);
}

}  // namespace backrow::inspection
