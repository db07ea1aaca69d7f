#include "photographs/exif_segment.h"

#include <libexif/exif-loader.h>

#include <algorithm>
#include <cstdint>
#include <limits>
#include <string_view>
#include <vector>

namespace backrow::photographs {
namespace {

struct ReleaseLoader {
    void operator()(ExifLoader* loader) const noexcept { exif_loader_unref(loader); }
};

// The loader and not exif_data_new_from_data(), which gives up at a comment before the segment. It
// says what is wrong with a file only to a log that it is given: here, to nobody.
Exif exif_of_jpeg(std::span<const std::byte> jpeg) noexcept {
    const std::unique_ptr<ExifLoader, ReleaseLoader> loader{exif_loader_new()};
    if (!loader || jpeg.size() > std::numeric_limits<unsigned int>::max())
        return nullptr;
    // It reads only, for all that its argument is not const.
    auto* bytes = const_cast<unsigned char*>(reinterpret_cast<const unsigned char*>(jpeg.data()));
    exif_loader_write(loader.get(), bytes, static_cast<unsigned int>(jpeg.size()));
    return Exif{exif_loader_get_data(loader.get())};
}

bool begins(std::span<const std::byte> bytes, std::string_view with) {
    return bytes.size() >= with.size() &&
           std::ranges::equal(bytes.first(with.size()), with, {}, {},
                              [](char c) { return static_cast<std::byte>(c); });
}

/// What the chunk holds; empty where there is none before the file ends or breaks off.
std::span<const std::byte> exif_chunk(std::span<const std::byte> png) noexcept {
    constexpr std::size_t signature_bytes = 8;
    constexpr std::size_t around_bytes = 12;  // length, kind and checksum
    for (std::size_t at = signature_bytes; at + around_bytes <= png.size();) {
        std::uint32_t length = 0;
        for (std::size_t i = 0; i < 4; ++i)
            length = length << 8 | std::to_integer<std::uint32_t>(png[at + i]);
        const std::size_t left = png.size() - at - around_bytes;
        if (length > left)
            break;
        if (begins(png.subspan(at + 4), "eXIf"))
            return png.subspan(at + 8, length);
        at += around_bytes + length;
    }
    return {};
}

// As libexif wants it: with the head that the segment of a JPEG has.
Exif exif_of_png(std::span<const std::byte> png) noexcept {
    const std::span<const std::byte> chunk = exif_chunk(png);
    constexpr std::size_t most_bytes = 1 << 16;  // of a JPEG's segment, too
    if (chunk.empty() || chunk.size() > most_bytes)
        return nullptr;
    std::vector<unsigned char> segment{'E', 'x', 'i', 'f', 0, 0};
    for (const std::byte byte : chunk)
        segment.push_back(std::to_integer<unsigned char>(byte));
    return Exif{exif_data_new_from_data(segment.data(), static_cast<unsigned int>(segment.size()))};
}

}  // namespace

Exif exif_of(std::span<const std::byte> file) noexcept {
    return begins(file, "\x89PNG\r\n\x1a\n") ? exif_of_png(file) : exif_of_jpeg(file);
}

}  // namespace backrow::photographs
