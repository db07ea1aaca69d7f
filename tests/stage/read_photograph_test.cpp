#include "stage/read_photograph.h"

#include "base/colour.h"

#include <catch2/catch.hpp>

#include <cstdint>

using namespace backrow;
using namespace backrow::stage;

// Half of the light is far more than half of the step: 0.5 is written as 187.5 of 255 [IEC61966],
// from memory. Tolerance: half a step to round, and half a step for a library that encodes from a
// table.
TEST_CASE("four pixels become one with their mean light", "[stage][from-memory]") {
    Image<Rgba8> checks{6, 4};
    for (int y = 0; y < 4; ++y)
        for (int x = 0; x < 6; ++x) {
            const std::uint8_t step = (x + y) % 2 == 0 ? 255 : 0;
            checks.at(x, y) = {step, 0, step};
        }
    const Image<Rgba8> half = halved(checks);
    REQUIRE(half.width_px() == 3);
    REQUIRE(half.height_px() == 2);
    const double mean_step = 255.0 * srgb_from_linear(0.5f);
    for (const Rgba8& pixel : half.pixels()) {
        CHECK(pixel.r == Approx(mean_step).margin(1.0));
        CHECK(pixel.g == 0);
        CHECK(pixel.b == pixel.r);
        CHECK(pixel.a == 255);
    }
}

TEST_CASE("even light is the same when it is halved, in every step", "[stage][property]") {
    for (int step = 0; step < 256; ++step) {
        const auto same = static_cast<std::uint8_t>(step);
        const Image<Rgba8> half = halved(Image<Rgba8>{2, 2, {same, same, same}});
        CHECK(half.at(0, 0) == Rgba8{same, same, same, 255});
    }
}

// Each four have a colour of their own, which nothing from beside them reaches.
TEST_CASE("a pixel is made of the four that lie under it, and an odd edge is left out",
          "[stage][property]") {
    Image<Rgba8> picture{5, 3, {255, 255, 255}};
    for (int y = 0; y < 2; ++y)
        for (int x = 0; x < 4; ++x)
            picture.at(x, y) = x < 2 ? Rgba8{200, 0, 0} : Rgba8{0, 0, 90};
    const Image<Rgba8> half = halved(picture);
    REQUIRE(half.width_px() == 2);
    REQUIRE(half.height_px() == 1);
    CHECK(half.at(0, 0) == Rgba8{200, 0, 0});
    CHECK(half.at(1, 0) == Rgba8{0, 0, 90});
}
