#include "base/colour.h"
#include "base/image_files.h"

#include <catch2/catch.hpp>

#define STB_IMAGE_IMPLEMENTATION
#define STB_IMAGE_STATIC
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wunused-function"
#pragma GCC diagnostic ignored "-Wold-style-cast"
#pragma GCC diagnostic ignored "-Wshadow"
#include <stb/stb_image.h>
#pragma GCC diagnostic pop

#include <webp/decode.h>

#include <algorithm>
#include <cmath>
#include <cstring>
#include <memory>
#include <string>

using namespace backrow;

namespace {

const stbi_uc* as_file(const Bytes& bytes) {
    return reinterpret_cast<const stbi_uc*>(bytes.data());
}

}  // namespace

// Read back by an independent reader, stb_image.
TEST_CASE("a PNG comes back byte for byte", "[base][property]") {
    Image<Rgb8> picture{5, 3};
    for (int y = 0; y < 3; ++y)
        for (int x = 0; x < 5; ++x)
            picture.at(x, y) = {static_cast<std::uint8_t>(x * 50),
                                static_cast<std::uint8_t>(y * 100),
                                static_cast<std::uint8_t>(x + y)};
    const Bytes bytes = png_bytes(picture);
    int width = 0;
    int height = 0;
    int channels = 0;
    const std::unique_ptr<stbi_uc, void (*)(void*)> back{
        stbi_load_from_memory(as_file(bytes), static_cast<int>(bytes.size()), &width, &height,
                              &channels, 3),
        stbi_image_free};
    REQUIRE(back);
    REQUIRE(width == 5);
    REQUIRE(height == 3);
    CHECK(channels == 3);
    CHECK(std::memcmp(back.get(), picture.pixels().data(), 5 * 3 * 3) == 0);
}

namespace {

/// The largest step between a picture and what a JPEG of it comes back as.
int worst_step(const Image<Rgb8>& picture, int quality) {
    const Bytes bytes = jpeg_bytes(picture, quality);
    int width = 0, height = 0, channels = 0;
    const std::unique_ptr<stbi_uc, void (*)(void*)> back{
        stbi_load_from_memory(as_file(bytes), static_cast<int>(bytes.size()), &width, &height,
                              &channels, 3),
        stbi_image_free};
    REQUIRE(back);
    REQUIRE(width == picture.width_px());
    REQUIRE(height == picture.height_px());
    int worst = 0;
    const auto* was = reinterpret_cast<const stbi_uc*>(picture.pixels().data());
    for (int i = 0; i < width * height * 3; ++i)
        worst = std::max(worst, std::abs(int{back.get()[i]} - int{was[i]}));
    return worst;
}

}  // namespace

// Read back by an independent reader, stb_image. At a quality of 100 every step of the transform is
// rounded to whole numbers: three roundings of half a step each, through a matrix of colours whose
// rows sum to less than 2.8 in amount, and half a step of the pixel's own rounding.
TEST_CASE("a JPEG of the best quality comes back within a few steps of light", "[base][property]") {
    Image<Rgb8> picture{37, 23};
    for (int y = 0; y < 23; ++y)
        for (int x = 0; x < 37; ++x)
            picture.at(x, y) = {static_cast<std::uint8_t>(x * 6), static_cast<std::uint8_t>(y * 11),
                                static_cast<std::uint8_t>(255 - 3 * (x + y))};
    CHECK(worst_step(picture, 100) <= 5);
    CHECK(worst_step(picture, 10) > worst_step(picture, 100));
    CHECK(jpeg_bytes(picture, 10).size() < jpeg_bytes(picture, 95).size());
}

// Source: [PFM], from memory: "PF", width and height, a negative scale for little-endian, rows from
// the bottom.
TEST_CASE("a float map holds every bit, rows from the bottom", "[base][from-memory]") {
    Image<Rgb> picture{2, 2};
    picture.at(0, 0) = {1.0f, 2.0f, 3.0f};
    picture.at(1, 1) = {1e-9f, 4e7f, -0.25f};
    const Bytes bytes = pfm_bytes(picture);
    const std::string header = "PF\n2 2\n-1.0\n";
    REQUIRE(bytes.size() == header.size() + 2 * 2 * 3 * sizeof(float));
    CHECK(std::memcmp(bytes.data(), header.data(), header.size()) == 0);
    Rgb back[4];
    std::memcpy(back, bytes.data() + header.size(), sizeof back);
    CHECK(back[1] == picture.at(1, 1));
    CHECK(back[2] == picture.at(0, 0));
}

// Eight bits of mantissa on the brightest channel's power of two: half a step is 1/256 of the
// brightest value at worst (mantissa 128), for every channel. Read back by stb_image, whose decoder
// is independent of our writer; it takes a mantissa as it stands, without adding a half.
TEST_CASE("Radiance keeps each channel within half a step of the brightest", "[base][property]") {
    Image<Rgb> picture{64, 3};
    float value = 1e-6f;
    for (Rgb& colour : picture.pixels()) {
        colour = {value, value * 0.7f, value * 0.013f};
        value *= 1.17f;
    }
    picture.at(0, 0) = {};
    picture.at(1, 0) = {0.99999f, 0.5f, 0.0f};  // rounds up to the next power of two
    const Bytes bytes = radiance_bytes(picture);
    int width = 0;
    int height = 0;
    int channels = 0;
    const std::unique_ptr<float, void (*)(void*)> back{
        stbi_loadf_from_memory(as_file(bytes), static_cast<int>(bytes.size()), &width, &height,
                               &channels, 3),
        stbi_image_free};
    REQUIRE(back);
    REQUIRE(width == 64);
    REQUIRE(height == 3);
    double bias = 0.0;
    for (std::size_t i = 0; i < picture.pixels().size(); ++i) {
        const Rgb& wrote = picture.pixels()[i];
        const Rgb read{back.get()[3 * i], back.get()[3 * i + 1], back.get()[3 * i + 2]};
        const float brightest = std::max({wrote.r, wrote.g, wrote.b});
        const float half_step = brightest / 256.0f * 1.0001f;
        CHECK(std::abs(read.r - wrote.r) <= half_step);
        CHECK(std::abs(read.g - wrote.g) <= half_step);
        CHECK(std::abs(read.b - wrote.b) <= half_step);
        if (brightest > 0)
            bias += (read.r - wrote.r) / brightest;
    }
    // A writer that truncates would read half a step low on average: −1/512 to −1/256.
    CHECK(std::abs(bias / 192.0) < 1.0 / 1500.0);
}

// Source: [IEC61966], from memory: the two pieces meet at 0.0031308 and 0.04045; middle grey 0.18
// encodes to about 118 of 255, 0.5 encoded is 0.2140.
TEST_CASE("sRGB there and back", "[base][from-memory]") {
    CHECK(srgb_from_linear(0.0f) == 0.0f);
    CHECK(srgb_from_linear(1.0f) == Approx(1.0f).epsilon(1e-6));
    CHECK(srgb_from_linear(0.18f) * 255.0f == Approx(118.0f).margin(0.5));
    CHECK(linear_from_srgb(0.5f) == Approx(0.2140f).margin(5e-5));
    for (float value = 0.0f; value <= 1.0f; value += 1.0f / 64.0f)
        CHECK(linear_from_srgb(srgb_from_linear(value)) == Approx(value).margin(1e-6));
}

TEST_CASE("a WebP looks like the picture that it was made of, and better the higher its quality",
          "[base][property]") {
    Image<Rgb8> picture{64, 48};
    for (int y = 0; y < picture.height_px(); ++y)
        for (int x = 0; x < picture.width_px(); ++x)
            picture.at(x, y) = {static_cast<std::uint8_t>(4 * x), static_cast<std::uint8_t>(5 * y),
                                static_cast<std::uint8_t>(2 * (x + y))};
    double last = 256;
    for (const int quality : {5, 40, 95}) {
        const Bytes bytes = webp_bytes(picture, quality);
        int width = 0;
        int height = 0;
        const std::unique_ptr<std::uint8_t, void (*)(void*)> decoded{
            WebPDecodeRGB(reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size(), &width,
                          &height),
            WebPFree};
        REQUIRE(decoded);
        REQUIRE(width == picture.width_px());
        REQUIRE(height == picture.height_px());
        double off = 0;
        const auto* pixels = reinterpret_cast<const std::uint8_t*>(picture.pixels().data());
        const int channels = 3 * width * height;
        for (int i = 0; i < channels; ++i)
            off += std::abs(decoded.get()[i] - pixels[i]) / static_cast<double>(channels);
        CHECK(off < last);
        last = off;
    }
    CHECK(last < 3);  // of 255: what no eye sees
}
