#include "base/image_files.h"

#include <fmt/format.h>

#define STB_IMAGE_WRITE_IMPLEMENTATION
#define STB_IMAGE_WRITE_STATIC
#if defined(__GNUC__)
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wmissing-field-initializers"
#pragma GCC diagnostic ignored "-Wunused-function"
#pragma GCC diagnostic ignored "-Wold-style-cast"
#pragma GCC diagnostic ignored "-Wshadow"
#endif
#include <stb/stb_image_write.h>
#if defined(__GNUC__)
#pragma GCC diagnostic pop
#endif

#include <webp/encode.h>

#include <algorithm>
#include <array>
#include <bit>
#include <cassert>
#include <cmath>
#include <cstdint>
#include <cstring>
#include <memory>
#include <new>
#include <string>

namespace backrow {
namespace {

static_assert(std::endian::native == std::endian::little, "floats are written as they lie");

Bytes with_header(const std::string& header, std::size_t room) {
    Bytes bytes;
    bytes.reserve(header.size() + room);
    for (const char c : header)
        bytes.push_back(static_cast<std::byte>(c));
    return bytes;
}

// Each row as its difference from the one above, and compressed no harder than that: in two thirds
// of the time, and no larger than with every filter tried on every row.
const bool png_is_quick = [] {
    stbi_write_force_png_filter = 2;
    stbi_write_png_compression_level = 5;
    return true;
}();

// What the library calls with each piece of a file.
void append(void* into, void* from, int size) {
    const auto* first = static_cast<const std::byte*>(from);
    auto& out = *static_cast<Bytes*>(into);
    out.insert(out.end(), first, first + size);
}

Bytes png_of(const void* pixels, int width_px, int height_px, int channels) {
    Bytes bytes;
    assert(png_is_quick);
    // It fails for want of memory alone, and would leave an empty file.
    if (stbi_write_png_to_func(append, &bytes, width_px, height_px, channels, pixels,
                               width_px * channels) == 0)
        throw std::bad_alloc{};
    return bytes;
}

// Shared exponent: mantissas of eight bits on the brightest channel's power of two. Rounding may
// carry the brightest to 256, which moves to the next exponent.
std::array<std::byte, 4> rgbe(const Rgb& colour) {
    const float brightest = std::max({colour.r, colour.g, colour.b});
    if (!(brightest > 1e-32f))
        return {};
    int exponent = 0;
    std::frexp(brightest, &exponent);
    if (std::lround(std::ldexp(brightest, 8 - exponent)) > 255)
        ++exponent;
    const auto mantissa = [&](float value) {
        const long rounded = std::lround(std::ldexp(std::max(value, 0.0f), 8 - exponent));
        return static_cast<std::byte>(std::min(rounded, 255L));
    };
    return {mantissa(colour.r), mantissa(colour.g), mantissa(colour.b),
            static_cast<std::byte>(exponent + 128)};
}

}  // namespace

Bytes png_bytes(const Image<Rgb8>& picture) {
    return png_of(picture.pixels().data(), picture.width_px(), picture.height_px(), 3);
}

Bytes png_bytes(const Image<Rgba8>& picture) {
    return png_of(picture.pixels().data(), picture.width_px(), picture.height_px(), 4);
}

Bytes jpeg_bytes(const Image<Rgb8>& picture, int quality) {
    assert(std::max(picture.width_px(), picture.height_px()) <= longest_jpeg_side_px);
    Bytes bytes;
    if (stbi_write_jpg_to_func(append, &bytes, picture.width_px(), picture.height_px(), 3,
                               picture.pixels().data(), quality) == 0)
        throw std::bad_alloc{};
    return bytes;
}

Bytes webp_bytes(const Image<Rgb8>& picture, int quality) {
    assert(std::max(picture.width_px(), picture.height_px()) <= longest_webp_side_px);
    std::uint8_t* made = nullptr;
    const std::size_t size = WebPEncodeRGB(
        reinterpret_cast<const std::uint8_t*>(picture.pixels().data()), picture.width_px(),
        picture.height_px(), 3 * picture.width_px(), static_cast<float>(quality), &made);
    const std::unique_ptr<std::uint8_t, void (*)(void*)> owned{made, WebPFree};
    // It fails for want of memory alone.
    if (size == 0)
        throw std::bad_alloc{};
    const auto* first = reinterpret_cast<const std::byte*>(owned.get());
    return {first, first + size};
}

Bytes pfm_bytes(const Image<Rgb>& picture) {
    const std::size_t row_bytes = static_cast<std::size_t>(picture.width_px()) * sizeof(Rgb);
    Bytes bytes =
        with_header(fmt::format("PF\n{} {}\n-1.0\n", picture.width_px(), picture.height_px()),
                    row_bytes * static_cast<std::size_t>(picture.height_px()));
    for (int y = picture.height_px() - 1; y >= 0; --y) {
        const auto* row = reinterpret_cast<const std::byte*>(&picture.at(0, y));
        bytes.insert(bytes.end(), row, row + row_bytes);
    }
    return bytes;
}

// Plain scanlines: a reader mistakes a pixel (2, 2, below 128) for run-length coding, which rgbe()
// never makes, its brightest mantissa being at least 128.
Bytes radiance_bytes(const Image<Rgb>& picture) {
    Bytes bytes = with_header(fmt::format("#?RADIANCE\nFORMAT=32-bit_rle_rgbe\n\n-Y {} +X {}\n",
                                          picture.height_px(), picture.width_px()),
                              picture.pixels().size() * 4);
    for (const Rgb& colour : picture.pixels()) {
        const auto packed = rgbe(colour);
        bytes.insert(bytes.end(), packed.begin(), packed.end());
    }
    return bytes;
}

}  // namespace backrow
