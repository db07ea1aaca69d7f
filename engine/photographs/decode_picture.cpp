#include "photographs/decode_picture.h"

#include "base/files_read.h"

#define STB_IMAGE_IMPLEMENTATION
#define STB_IMAGE_STATIC
#define STBI_NO_STDIO
#define STBI_ONLY_PNG
#define STBI_ONLY_JPEG
#define STBI_ONLY_BMP
#define STBI_ONLY_TGA
#if defined(__GNUC__)
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wmissing-field-initializers"
#pragma GCC diagnostic ignored "-Wunused-function"
#pragma GCC diagnostic ignored "-Wold-style-cast"
#pragma GCC diagnostic ignored "-Wshadow"
#pragma GCC diagnostic ignored "-Wnull-dereference"
#endif
#include <stb/stb_image.h>
#if defined(__GNUC__)
#pragma GCC diagnostic pop
#endif

#include <fmt/format.h>

#include <cstring>
#include <fstream>
#include <limits>
#include <memory>
#include <system_error>

namespace backrow::photographs {

namespace {

struct Header {
    int size_bytes = 0;
    int width_px = 0;
    int height_px = 0;
};

const stbi_uc* first_of(std::span<const std::byte> encoded) {
    return reinterpret_cast<const stbi_uc*>(encoded.data());
}

/// What the file says of itself, looked at before anything is decoded.
tl::expected<Header, std::string> header_of(std::span<const std::byte> encoded,
                                            double most_pixels) {
    const auto refuse = [](std::string why) { return tl::unexpected(std::move(why)); };
    if (encoded.size() > static_cast<std::size_t>(std::numeric_limits<int>::max()))
        return refuse("is too large a file");
    Header header{.size_bytes = static_cast<int>(encoded.size())};
    int channels = 0;
    if (stbi_info_from_memory(first_of(encoded), header.size_bytes, &header.width_px,
                              &header.height_px, &channels) == 0 ||
        header.width_px < 1 || header.height_px < 1)
        return refuse("is not a PNG, JPEG, BMP or TGA picture");
    if (static_cast<double>(header.width_px) * header.height_px > most_pixels)
        return refuse(fmt::format("has {} × {} pixels, more than there is room for",
                                  header.width_px, header.height_px));
    return header;
}

template <class Pixel, class Channel, class Load>
tl::expected<Image<Pixel>, std::string> decoded(std::span<const std::byte> encoded,
                                                double most_pixels, Load load) {
    constexpr int channels = sizeof(Pixel) / sizeof(Channel);
    const auto header = header_of(encoded, most_pixels);
    if (!header)
        return tl::unexpected(header.error());
    int width_px = 0;
    int height_px = 0;
    int channels_there = 0;
    const std::unique_ptr<Channel, void (*)(void*)> pixels{
        load(first_of(encoded), header->size_bytes, &width_px, &height_px, &channels_there,
             channels),
        stbi_image_free};
    if (!pixels || width_px != header->width_px || height_px != header->height_px)
        return tl::unexpected(std::string{"is damaged"});
    Image<Pixel> picture{width_px, height_px};
    std::memcpy(static_cast<void*>(picture.pixels().data()), pixels.get(),
                picture.pixels().size() * sizeof(Pixel));
    return picture;
}

}  // namespace

tl::expected<Image<Rgba8>, std::string> decode_picture(std::span<const std::byte> encoded,
                                                       double most_pixels) {
    static_assert(sizeof(Rgba8) == 4);
    return decoded<Rgba8, stbi_uc>(encoded, most_pixels, stbi_load_from_memory);
}

tl::expected<Image<Rgb16>, std::string> decode_deep_picture(std::span<const std::byte> encoded,
                                                            double most_pixels) {
    static_assert(sizeof(Rgb16) == 6);
    return decoded<Rgb16, stbi_us>(encoded, most_pixels, stbi_load_16_from_memory);
}

std::optional<std::vector<std::byte>> bytes_of(const std::filesystem::path& file,
                                               std::uintmax_t most_bytes) {
    std::error_code failed;
    const std::uintmax_t size = std::filesystem::file_size(file, failed);
    if (failed || size > most_bytes)
        return std::nullopt;
    std::vector<std::byte> bytes(static_cast<std::size_t>(size));
    std::ifstream stream = open_to_read(file);
    stream.read(reinterpret_cast<char*>(bytes.data()), static_cast<std::streamsize>(size));
    if (!stream)
        return std::nullopt;
    return bytes;
}

}  // namespace backrow::photographs
