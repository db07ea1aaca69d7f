#include "measure/added_blur.h"

#include "detail_of_all_sizes.h"

#include "measure/smoothed.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <optional>

namespace backrow::measure {
namespace {

constexpr int side_px = 200;
constexpr PixelBox middle{60, 60, 80, 80};

Image<float> softened(const Image<float>& picture, double across_px2, double down_px2,
                      int right_px = 0, int down_px = 0) {
    return smoothed(picture, {-right_px, -down_px, picture.width_px(), picture.height_px()},
                    across_px2, down_px2);
}

Image<float> noisy(Image<float> picture, std::uint64_t seed) {
    Lots lots{seed};
    for (float& light : picture.pixels())
        light += static_cast<float>(0.005 * lots.normal());
    return picture;
}

}  // namespace

// A Gaussian's variance is what is told; 5 %, for pixels are no points.
TEST_CASE("how much more one picture is blurred than another is told", "[measure][property]") {
    for (const std::uint64_t seed : {1u, 2u, 3u}) {
        const Image<float> sharp = softened(leaves(side_px, seed), 0.6, 0.6);
        for (const double more_px2 : {0.5, 2.0, 8.0, 25.0}) {
            const Image<float> blurred =
                softened(leaves(side_px, seed), 0.6 + more_px2, 0.6 + more_px2);
            const auto added = added_blur(noisy(sharp, 1), noisy(blurred, 2), middle);
            CAPTURE(seed, more_px2);
            REQUIRE(added);
            CHECK(added->mean_px2() == Approx(more_px2).epsilon(0.05).margin(0.05));
            CHECK(added->least_px2() > 0.8 * added->most_px2());
            const auto taken = added_blur(noisy(blurred, 1), noisy(sharp, 2), middle);
            REQUIRE(taken);
            CHECK(taken->mean_px2() == Approx(-added->mean_px2()).epsilon(0.05).margin(0.05));
        }
    }
}

TEST_CASE("a shift between two pictures is told and is no blur", "[measure][property]") {
    const Image<float> one = softened(leaves(side_px, 4), 1, 1);
    const auto added = added_blur(one, softened(leaves(side_px, 4), 3, 3, 9, -6), middle);
    REQUIRE(added);
    CHECK(added->right_px == Approx(9).margin(0.2));
    CHECK(added->down_px == Approx(-6).margin(0.2));
    CHECK(added->mean_px2() == Approx(2).epsilon(0.05));
}

// Six degrees and a fifth: leaves are no face, their edges lie as they fall.
TEST_CASE("blur in one direction is told with its direction", "[measure][property]") {
    const Image<float> one = softened(leaves(side_px, 5), 0.6, 0.6);
    const auto across = added_blur(one, softened(leaves(side_px, 5), 6.6, 0.6), middle);
    REQUIRE(across);
    CHECK(across->most_px2() == Approx(6).epsilon(0.2));
    CHECK(across->least_px2() == Approx(0).margin(0.3));
    CHECK(std::abs(across->direction_deg()) < 6);
    const auto down = added_blur(one, softened(leaves(side_px, 5), 0.6, 6.6), middle);
    REQUIRE(down);
    CHECK(std::abs(down->direction_deg()) > 84);
    // Moved along a diagonal, right and up.
    Image<float> diagonal(side_px, side_px);
    const Image<float> still = leaves(side_px, 5);
    for (int y = 0; y < side_px; ++y)
        for (int x = 0; x < side_px; ++x)
            for (int i = -4; i <= 4; ++i)
                diagonal.at(x, y) +=
                    still.at(std::clamp(x + i, 0, side_px - 1), std::clamp(y - i, 0, side_px - 1)) /
                    9;
    const auto turned = added_blur(one, softened(diagonal, 0.6, 0.6), middle);
    REQUIRE(turned);
    CHECK(turned->direction_deg() == Approx(45).margin(6));
    CHECK(turned->least_px2() < 0.15 * turned->most_px2());
}

TEST_CASE("what is elsewhere in one of both pictures does not count for its blur",
          "[measure][property]") {
    const Image<float> one = softened(leaves(side_px, 6), 1, 1);
    Image<float> other = softened(leaves(side_px, 6), 3, 3);
    for (int y = 70; y < 85; ++y)
        for (int x = 70; x < 100; ++x)
            other.at(x, y) = 0.5f;
    const auto added = added_blur(one, other, middle);
    REQUIRE(added);
    CHECK(added->mean_px2() == Approx(2).epsilon(0.15));
}

TEST_CASE("nothing is told where there is nothing to compare", "[measure][property]") {
    const Image<float> flat(100, 100, 0.5f);
    CHECK_FALSE(added_blur(flat, flat, {30, 30, 40, 40}));
    const Image<float> detail = leaves(100, 7);
    CHECK_FALSE(added_blur(detail, leaves(90, 7), {30, 30, 40, 40}));
    CHECK_FALSE(added_blur(detail, detail, {30, 30, 15, 40}));
}

TEST_CASE("pictures that have nothing in common are told from those that have",
          "[measure][property]") {
    const Image<float> detail = leaves(100, 7);
    const PixelBox box{30, 30, 40, 40};
    const auto strangers = added_blur(detail, leaves(100, 8), box);
    REQUIRE(strangers);
    CHECK(strangers->unlike > 0.3);
    const auto same = added_blur(detail, softened(detail, 3, 3), box);
    REQUIRE(same);
    CHECK(same->unlike < 0.03);
}

}  // namespace backrow::measure
