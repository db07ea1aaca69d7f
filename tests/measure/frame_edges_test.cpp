#include "measure/frame_edges.h"

#include "synthetic_edge.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace backrow;
using namespace backrow::measure;
using Catch::Matchers::WithinAbs;

namespace {

/// Two upright edges above, two level ones below, of these blurs.
Image<float> four_edges(double upright_sigma_px, double level_sigma_px) {
    Image<float> picture(160, 320);
    const auto paste = [&](const Image<float>& part, int left, int top) {
        for (int y = 0; y < part.height_px(); ++y)
            for (int x = 0; x < part.width_px(); ++x)
                picture.at(left + x, top + y) = part.at(x, y);
    };
    for (const int left : {0, 80})
        paste(drawn({.width_px = 80, .height_px = 160, .sigma_px = upright_sigma_px}), left, 0);
    for (const int top : {160, 240})
        paste(
            drawn({.width_px = 80, .height_px = 160, .sigma_px = level_sigma_px, .is_level = true}),
            0, top);
    return picture;
}

const std::vector<PixelBox> boxes{
    {0, 0, 80, 160}, {80, 0, 80, 160}, {0, 160, 160, 80}, {0, 240, 160, 80}};

/// All in the middle of a larger picture.
std::vector<FrameEdge> in_the_middle(std::vector<FrameEdge> edges) {
    for (FrameEdge& edge : edges)
        edge.image_height = 0.1;
    return edges;
}

}  // namespace

TEST_CASE("a frame moved if its middle is sharper in one direction", "[measure][property]") {
    CHECK(frame_moved(in_the_middle(measure_edges(four_edges(1, 2), boxes))));
    CHECK(frame_moved(in_the_middle(measure_edges(four_edges(2, 1), boxes))));
    CHECK_FALSE(frame_moved(in_the_middle(measure_edges(four_edges(1, 1.1), boxes))));
    // Where the edges of a direction differ among themselves, the picture is not flat.
    auto edges = in_the_middle(measure_edges(four_edges(1, 2), boxes));
    edges[0].sharpness->mtf50_cy_per_px *= 0.8;
    CHECK_FALSE(frame_moved(edges));
    // Towards the corners a lens may prefer a direction.
    CHECK_FALSE(frame_moved(measure_edges(four_edges(1, 2), boxes)));
}

TEST_CASE("image height is counted from the middle to the corners", "[measure][property]") {
    const auto edges = measure_edges(four_edges(1, 1), {{40, 80, 80, 160}, {0, 0, 40, 40}});
    CHECK_THAT(edges[0].image_height, WithinAbs(0, 1e-12));
    CHECK_THAT(edges[1].image_height, WithinAbs(std::hypot(60, 140) / std::hypot(80, 160), 1e-12));
}
