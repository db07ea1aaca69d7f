#include "measure/edge_finding.h"

#include "synthetic_edge.h"

#include "measure/slanted_edge.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

using namespace backrow;
using namespace backrow::measure;
using Catch::Matchers::WithinRel;

namespace {

/// Dark squares on a bright ground, turned by an angle, all blurred by a Gaussian.
Image<float> squares(int width_px, int height_px, int pitch_px, double angle_deg, double sigma_px,
                     double noise, std::uint64_t seed) {
    Lots lots{seed};
    Image<float> picture(width_px, height_px);
    const double angle = rad_from_deg(angle_deg);
    // The convolution of a square with a Gaussian is a product of two differences of steps, and a
    // pixel's box is nearly a Gaussian of 1/12 px².
    const double sigma = std::sqrt(sigma_px * sigma_px + 1.0 / 12);
    const auto step = [&](double at) { return 0.5 * std::erfc(-at / sigma / std::sqrt(2.0)); };
    const double half = 0.3 * pitch_px;
    const auto band = [&](double at) { return step(at + half) - step(at - half); };
    for (int y = 0; y < height_px; ++y)
        for (int x = 0; x < width_px; ++x) {
            const double off_x = std::fmod(x + 0.5, pitch_px) - pitch_px / 2.0;
            const double off_y = std::fmod(y + 0.5, pitch_px) - pitch_px / 2.0;
            const double share = band(off_x * std::cos(angle) + off_y * std::sin(angle)) *
                                 band(off_y * std::cos(angle) - off_x * std::sin(angle));
            picture.at(x, y) =
                static_cast<float>(0.7 - 0.55 * share + 0.55 * noise * lots.normal());
        }
    return picture;
}

}  // namespace

// Twelve squares of four sides each. Truth: Gaussians of the blur and of the pixel's box, whose own
// curve differs from a Gaussian's by 0.4 % at MTF50 for the smallest blur.
TEST_CASE("all sides of a chart's squares are found and measured", "[measure][property]") {
    for (const double sigma_px : {0.8, 2.5, 6.0})
        for (const double angle_deg : {4.0, -7.0, 12.0})
            for (const double noise : {0.0, 0.02}) {
                CAPTURE(sigma_px, angle_deg, noise);
                const auto picture = squares(880, 660, 220, angle_deg, sigma_px, noise, 7);
                const auto boxes = find_edges(picture, 100);
                CHECK(boxes.size() >= 46);
                const double truth = 0.187391 / std::sqrt(sigma_px * sigma_px + 1.0 / 12);
                std::size_t measured = 0;
                int upright = 0;
                for (std::size_t i = 0; i < boxes.size(); ++i) {
                    for (std::size_t j = 0; j < i; ++j)
                        CHECK_FALSE(overlap(boxes[i], boxes[j]));
                    const auto edge = measure_edge(picture, boxes[i]);
                    if (!edge)
                        continue;
                    ++measured;
                    upright += edge->is_upright;
                    CHECK_THAT(edge->mtf50_cy_per_px, WithinRel(truth, 0.05));
                }
                CHECK(measured >= 40);
                CHECK(upright >= 18);
                CHECK(upright <= 30);
            }
}

TEST_CASE("a long edge gives several boxes, one below the other", "[measure][property]") {
    const auto picture = drawn({.width_px = 400, .height_px = 900, .sigma_px = 1.5, .noise = 0.01});
    const auto boxes = find_edges(picture, 100);
    CHECK(boxes.size() >= 3);
    for (const PixelBox& box : boxes) {
        CHECK(box.height_px <= longest_edge_px);
        CHECK(measure_edge(picture, box));
    }
}

TEST_CASE("where there is no edge to measure none is found", "[measure][property]") {
    Lots lots{5};
    Image<float> noise(300, 200);
    for (float& light : noise.pixels())
        light = static_cast<float>(0.4 + 0.05 * lots.normal());
    CHECK(find_edges(noise, 100).empty());
    CHECK(find_edges(Image<float>(300, 200, 0.5f), 100).empty());
    CHECK(find_edges(Image<float>(1, 1, 0.5f), 100).empty());
    CHECK(find_edges(Image<float>(300, 3, 0.5f), 100).empty());
    CHECK(find_edges(drawn({.angle_deg = 45, .sigma_px = 1}), 100).empty());
    CHECK(find_edges(drawn({.angle_deg = 0, .sigma_px = 1}), 100).empty());
}
