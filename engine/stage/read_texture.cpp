#include "stage/read_texture.h"

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

namespace backrow::stage {

tl::expected<Image<Rgba8>, std::string> decode_texture(std::span<const std::byte> encoded,
                                                       double most_pixels) {
    const auto refuse = [](std::string why) { return tl::unexpected(std::move(why)); };
    if (encoded.size() > static_cast<std::size_t>(std::numeric_limits<int>::max()))
        return refuse("is too large a file");
    const auto* bytes = reinterpret_cast<const stbi_uc*>(encoded.data());
    const int size = static_cast<int>(encoded.size());
    int width_px = 0;
    int height_px = 0;
    int channels = 0;
    if (stbi_info_from_memory(bytes, size, &width_px, &height_px, &channels) == 0 || width_px < 1 ||
        height_px < 1)
        return refuse("is not a PNG, JPEG, BMP or TGA picture");
    if (static_cast<double>(width_px) * height_px > most_pixels)
        return refuse(
            fmt::format("has {} × {} pixels, more than there is room for", width_px, height_px));

    const std::unique_ptr<stbi_uc, void (*)(void*)> pixels{
        stbi_load_from_memory(bytes, size, &width_px, &height_px, &channels, 4), stbi_image_free};
    if (!pixels)
        return refuse("is damaged");
    Image<Rgba8> texture{width_px, height_px};
    static_assert(sizeof(Rgba8) == 4);
    std::memcpy(texture.pixels().data(), pixels.get(), texture.pixels().size() * sizeof(Rgba8));
    return texture;
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

}  // namespace backrow::stage
