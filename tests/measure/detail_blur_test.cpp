#include "measure/detail_blur.h"

#include "detail_of_all_sizes.h"

#include "base/colour.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <optional>

using namespace backrow;
using namespace backrow::measure;

namespace {

constexpr int side_px = 160;
constexpr PixelBox middle{10, 10, side_px - 20, side_px - 20};

/// Leaves have the same build in all sizes, and no knee of their own.
constexpr SharpDetail of_leaves{.knee_px = 14, .more_across = 0};

/// noise  its standard deviation, of what is shown
std::optional<DetailBlur> blur_of(Image<float> light, double noise = 0) {
    Lots lots{9};
    for (float& one : light.pixels())
        one = srgb_from_linear(std::clamp(one, 0.0f, 1.0f)) +
              static_cast<float>(noise * lots.normal());
    return detail_blur(light, middle, of_leaves, noise * noise);
}

/// Moved across by so many pixels, an odd number.
Image<float> smeared(const Image<float>& still, int stroke_px, bool is_diagonal) {
    Image<float> moved(still.width_px(), still.height_px());
    const int half = stroke_px / 2;
    for (int y = 0; y < still.height_px(); ++y)
        for (int x = 0; x < still.width_px(); ++x)
            for (int i = -half; i <= half; ++i)
                moved.at(x, y) +=
                    still.at(std::clamp(x + i, 0, still.width_px() - 1),
                             std::clamp(is_diagonal ? y - i : y, 0, still.height_px() - 1)) /
                    static_cast<float>(stroke_px);
    return moved;
}

}  // namespace

// Tolerance: a fifth, or 0.8 px, for no leaf here is smaller than two pixels and so the finest
// detail is missing. Not at 3 px, for a disc of three whole pixels is a square.
TEST_CASE("the blur of detail of all sizes is told, and that nothing moved",
          "[measure][measured]") {
    for (const std::uint64_t seed : {1u, 2u, 3u}) {
        const Image<float> sharp = leaves(side_px, seed);
        const auto least = blur_of(sharp);
        REQUIRE(least);
        CHECK(least->px < 1);
        double before = least->px;
        for (const double disc_px : {2.0, 4.5, 7.0}) {
            const auto found = blur_of(blurred_by_disc(sharp, disc_px));
            REQUIRE(found);
            CAPTURE(seed, disc_px, found->px, found->from_px, found->to_px);
            CHECK(std::abs(found->px - disc_px) < std::max(0.8, 0.2 * disc_px));
            CHECK(found->from_px <= found->px);
            CHECK(found->px <= found->to_px);
            CHECK(found->px > before);
            CHECK(found->moved < 0.1);
            CHECK_FALSE(found->is_beyond);
            before = found->px;
        }
    }
}

// A stroke of L blurs as a disc of L √(2/3) on average. Tolerance: a fifth and ten degrees.
TEST_CASE("a movement is told from its picture alone, with its direction", "[measure][measured]") {
    for (const std::uint64_t seed : {1u, 2u}) {
        const Image<float> sharp = leaves(side_px, seed);
        for (const int stroke_px : {5, 9}) {
            const auto across = blur_of(smeared(sharp, stroke_px, false));
            REQUIRE(across);
            CAPTURE(seed, stroke_px, across->px, across->direction_deg, across->moved);
            CHECK(across->moved > 0.9);
            CHECK(across->direction_sure > 0.8);
            CHECK(std::abs(across->direction_deg) < 10);
            CHECK(across->px == Approx(stroke_px * std::sqrt(2.0 / 3)).epsilon(0.2));
        }
        const auto diagonal = blur_of(smeared(sharp, 5, true));
        REQUIRE(diagonal);
        CHECK(diagonal->moved > 0.9);
        CHECK(diagonal->direction_deg == Approx(45).margin(10));
    }
}

TEST_CASE("of more blur than can be told there is only that", "[measure][property]") {
    for (const double disc_px : {14.0, 20.0, 30.0}) {
        const auto found = blur_of(blurred_by_disc(leaves(side_px, 4), disc_px));
        CAPTURE(disc_px);
        REQUIRE(found);
        CHECK(found->is_beyond);
    }
}

// Behind a disc no step is steeper than its chord against its area: 4/πd of it. This one goes half
// of the range a pixel, so with 1.6 for what the range was before no disc over 4.1 px is behind it.
TEST_CASE("where an edge is too steep for it no large blur is told", "[measure][property]") {
    Image<float> light = blurred_by_disc(leaves(side_px, 2), 8);
    const auto without = blur_of(light);
    REQUIRE(without);
    CHECK(without->px > 6);
    for (int y = -14; y <= 14; ++y)
        for (int x = -14; x <= 14; ++x)
            light.at(50 + x, 50 + y) = x * x + y * y < 100 ? 1.0f : 0.0f;
    const auto with = blur_of(light);
    REQUIRE(with);
    CAPTURE(with->px, with->moved, with->direction_deg);
    CHECK(with->px <= 4.1);
}

TEST_CASE("the estimate is about the same in noise, or none", "[measure][property]") {
    const Image<float> blurred = blurred_by_disc(leaves(side_px, 4), 4);
    const double without = blur_of(blurred)->px;
    for (const double noise : {0.002, 0.005, 0.01, 0.03, 0.1}) {
        const auto found = blur_of(blurred, noise);
        CAPTURE(noise, without, found ? found->px : -1);
        CHECK((!found || std::abs(found->px / without - 1) < 0.2));
    }
    const Image<float> even(side_px, side_px, 0.5f);
    CHECK_FALSE(blur_of(even, 0.02));
    CHECK_FALSE(blur_of(even));
    CHECK_FALSE(detail_blur(blurred, {10, 10, 7, 140}, of_leaves, 0));
}
