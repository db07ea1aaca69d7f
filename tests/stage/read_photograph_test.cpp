#include "stage/read_photograph.h"

#include "../photographs/jpeg_writing.h"
#include "../scene_file/scene_folder.h"

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

// Stored lying on its side, red where the top belongs. JPEG of best quality is a few steps off.
TEST_CASE("a photograph that was held upright stands upright", "[stage][property]") {
    const scene_file::SceneFolder folder;
    Image<Rgb8> lying{64, 32, {20, 40, 200}};
    for (int y = 0; y < 32; ++y)
        for (int x = 0; x < 32; ++x)
            lying.at(x, y) = {200, 30, 20};
    const auto upright = read_photograph(folder.write("x.jpg", photographs::jpeg_of(lying, 6)), {},
                                         PhotographShape::any);
    REQUIRE(upright);
    CHECK(upright->width_px() == 32);
    CHECK(upright->height_px() == 64);
    CHECK(upright->at(16, 10).r > 180);
    CHECK(upright->at(16, 54).b > 180);
    const auto as_stored = read_photograph(folder.write("y.jpg", photographs::jpeg_of(lying, 0)),
                                           {}, PhotographShape::equirectangular);
    REQUIRE(as_stored);
    CHECK(as_stored->width_px() == 64);
    CHECK_FALSE(read_photograph(folder.write("z.jpg", photographs::jpeg_of(lying, 6)), {},
                                PhotographShape::equirectangular));
}

TEST_CASE("a photograph whose note is longer than it is does not open", "[stage][property]") {
    using namespace std::string_literals;
    const scene_file::SceneFolder folder;
    // libexif reads on, but it is no JPEG that opens.
    CHECK_FALSE(read_photograph(
        folder.write("x.jpg", "\xff\xd8\xff\xe1\0\0"s +
                                  photographs::jpeg_of(Image<Rgb8>{8, 8}, 6).substr(2)),
        {}, PhotographShape::any));
}
