#include "measure/detail_blur.h"

#include "detail_of_all_sizes.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace backrow;
using namespace backrow::measure;

namespace {

double blur_of(const Image<float>& picture) {
    const auto blur =
        detail_blur_px(picture, {10, 10, picture.width_px() - 20, picture.height_px() - 20});
    REQUIRE(blur);
    return *blur;
}

}  // namespace

// Tolerance: a quarter, as for faces on which its constant was found, or 0.8 px, for no leaf here
// is smaller than two pixels and so the finest detail is missing.
TEST_CASE("the blur of detail of all sizes is estimated", "[measure][measured]") {
    for (const std::uint64_t seed : {1u, 2u, 3u}) {
        const Image<float> sharp = leaves(160, seed);
        double before = blur_of(sharp);
        CHECK(before < 1);
        for (const double disc_px : {2.0, 3.0, 4.5, 7.0, 10.0}) {
            const double found = blur_of(blurred_by_disc(sharp, disc_px));
            CAPTURE(seed, disc_px, found);
            CHECK(std::abs(found - disc_px) < std::max(0.8, 0.25 * disc_px));
            CHECK(found > before);
            before = found;
        }
    }
}

TEST_CASE("the estimate is the same in noise, or none", "[measure][property]") {
    const Image<float> blurred = blurred_by_disc(leaves(160, 4), 4);
    const double without = blur_of(blurred);
    Lots lots{9};
    for (const double noise : {0.002, 0.005, 0.01, 0.03, 0.1}) {
        Image<float> noisy = blurred;
        for (float& light : noisy.pixels())
            light += static_cast<float>(noise * lots.normal());
        const auto found = detail_blur_px(noisy, {10, 10, 140, 140});
        CAPTURE(noise, without, found.value_or(-1));
        CHECK((!found || std::abs(*found / without - 1) < 0.2));
    }
    Image<float> noise(160, 160, 0.5f);
    for (float& light : noise.pixels())
        light += static_cast<float>(0.02 * lots.normal());
    CHECK_FALSE(detail_blur_px(noise, {10, 10, 140, 140}));
    CHECK_FALSE(detail_blur_px(Image<float>(160, 160, 0.5f), {10, 10, 140, 140}));
    CHECK_FALSE(detail_blur_px(blurred, {10, 10, 7, 140}));
}
