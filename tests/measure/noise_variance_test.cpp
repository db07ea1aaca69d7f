#include "measure/noise_variance.h"

#include "detail_of_all_sizes.h"

#include "base/image.h"

#include <catch2/catch.hpp>

#include <vector>

using namespace backrow;
using namespace backrow::measure;

namespace {

/// Light that rises evenly, with noise on it.
Image<float> square(Lots& lots, double deviation) {
    Image<float> picture(noise_square_px, noise_square_px);
    for (int y = 0; y < noise_square_px; ++y)
        for (int x = 0; x < noise_square_px; ++x)
            picture.at(x, y) = static_cast<float>(0.4 + 0.0001 * x + deviation * lots.normal());
    return picture;
}

Image<float> cut_out(const Image<float>& picture, int left, int top) {
    Image<float> part(noise_square_px, noise_square_px);
    for (int y = 0; y < noise_square_px; ++y)
        for (int x = 0; x < noise_square_px; ++x)
            part.at(x, y) = picture.at(left + x, top + y);
    return part;
}

}  // namespace

// Tolerance: a tenth of the squares lie 1.75 standard deviations of 12 % below the mean in all
// waves together, and the waves that are looked at have a share in that. Of forty squares with some
// six independent waves each the mean spreads by a fifteenth: three times that.
TEST_CASE("noise is told by the smoothest places, whatever else is in the picture",
          "[measure][measured]") {
    Lots lots{7};
    const Image<float> detail = leaves(200, 3);
    for (const double deviation : {0.002, 0.01}) {
        std::vector<Image<float>> squares;
        for (int i = 0; i < 400; ++i)
            squares.push_back(square(lots, deviation));
        const double of_noise = noise_variance(squares) / (deviation * deviation);
        CHECK(of_noise > 0.7);
        CHECK(of_noise < 1);
        // Nine in ten have detail on which nobody would see noise.
        for (int i = 40; i < 400; ++i)
            squares[static_cast<std::size_t>(i)] =
                cut_out(detail, i % 12 * noise_square_px, i / 36 * noise_square_px);
        const double beside_detail = noise_variance(squares) / (deviation * deviation);
        CHECK(beside_detail > 0.8);
        CHECK(beside_detail < 1.3);
    }
}

TEST_CASE("there is no noise where all is even, and none is told of nothing",
          "[measure][property]") {
    CHECK(noise_variance({}) == 0);
    CHECK(noise_variance({Image<float>(noise_square_px, noise_square_px, 0.5f)}) < 1e-12);
}
