#include "stage/exif_orientation.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <initializer_list>
#include <optional>

namespace backrow::stage {
namespace {

using Bytes = std::span<const std::byte>;

/// A whole number of 2 or 4 bytes, or nothing past the end.
std::optional<std::uint32_t> number(Bytes bytes, std::size_t at, std::size_t size,
                                    bool is_little) noexcept {
    if (at > bytes.size() || bytes.size() - at < size)
        return std::nullopt;
    std::uint32_t value = 0;
    for (std::size_t i = 0; i < size; ++i) {
        const std::size_t from_top = is_little ? size - 1 - i : i;
        value = value << 8 | std::to_integer<std::uint32_t>(bytes[at + from_top]);
    }
    return value;
}

bool begins_with(Bytes bytes, std::span<const unsigned char> words) noexcept {
    return bytes.size() >= words.size() &&
           std::equal(words.begin(), words.end(), bytes.begin(), [](unsigned char a, std::byte b) {
               return a == std::to_integer<unsigned char>(b);
           });
}

/// What follows "Exif" in the first such segment before the picture's data. Segments are a marker
/// of two bytes and a length of two that counts itself.
std::optional<Bytes> exif_of(Bytes jpeg) noexcept {
    constexpr std::array<unsigned char, 2> start_of_image{0xff, 0xd8};
    constexpr std::array<unsigned char, 6> exif{'E', 'x', 'i', 'f', 0, 0};
    constexpr std::uint32_t application_segment = 0xffe1;
    constexpr std::uint32_t start_of_scan = 0xffda;
    if (!begins_with(jpeg, start_of_image))
        return std::nullopt;
    std::size_t at = start_of_image.size();
    while (true) {
        const auto marker = number(jpeg, at, 2, false);
        const auto length = number(jpeg, at + 2, 2, false);
        if (!marker || !length || *marker < 0xff00 || *marker == start_of_scan || *length < 2 ||
            jpeg.size() - (at + 2) < *length)
            return std::nullopt;
        const Bytes content = jpeg.subspan(at + 4, *length - 2);
        if (*marker == application_segment && begins_with(content, exif))
            return content.subspan(exif.size());
        at += 2 + *length;
    }
}

}  // namespace

ExifOrientation exif_orientation(std::span<const std::byte> jpeg) noexcept {
    constexpr auto as_stored = ExifOrientation::top_left;
    constexpr std::uint32_t orientation_tag = 0x0112;
    constexpr std::uint32_t short_type = 3;
    constexpr std::uint32_t magic = 42;
    constexpr std::size_t entry_bytes = 12;

    const auto exif = exif_of(jpeg);
    if (!exif)
        return as_stored;
    const auto order = number(*exif, 0, 2, false);
    const bool is_little = order == 0x4949u;  // "II"; else it must be "MM"
    if (!order || (!is_little && *order != 0x4d4du) || number(*exif, 2, 2, is_little) != magic)
        return as_stored;
    const auto directory = number(*exif, 4, 4, is_little);
    const auto entries = directory ? number(*exif, *directory, 2, is_little) : std::nullopt;
    for (std::size_t i = 0; entries && i < *entries; ++i) {
        const std::size_t at = std::size_t{*directory} + 2 + entry_bytes * i;
        const auto tag = number(*exif, at, 2, is_little);
        if (!tag)
            return as_stored;
        if (*tag != orientation_tag)
            continue;
        const auto value = number(*exif, at + 8, 2, is_little);
        const bool is_one_short = number(*exif, at + 2, 2, is_little) == short_type &&
                                  number(*exif, at + 4, 4, is_little) == 1u;
        return is_one_short && value && *value >= 1 && *value <= 8
                   ? static_cast<ExifOrientation>(*value)
                   : as_stored;
    }
    return as_stored;
}

Image<Rgba8> turned_upright(const Image<Rgba8>& stored, ExifOrientation orientation) {
    using enum ExifOrientation;
    if (orientation == top_left)
        return stored;
    const auto is_any = [&](std::initializer_list<ExifOrientation> of) {
        return std::ranges::find(of, orientation) != of.end();
    };
    // Rows become columns where the first row belongs at a side.
    const bool is_on_side = is_any({left_top, right_top, right_bottom, left_bottom});
    const bool starts_right = is_any({top_right, bottom_right, right_top, right_bottom});
    const bool starts_below = is_any({bottom_right, bottom_left, right_bottom, left_bottom});
    const int width = is_on_side ? stored.height_px() : stored.width_px();
    const int height = is_on_side ? stored.width_px() : stored.height_px();
    Image<Rgba8> upright{width, height};
    for (int y = 0; y < height; ++y) {
        for (int x = 0; x < width; ++x) {
            const int across = starts_right ? width - 1 - x : x;
            const int down = starts_below ? height - 1 - y : y;
            upright.at(x, y) = is_on_side ? stored.at(down, across) : stored.at(across, down);
        }
    }
    return upright;
}

}  // namespace backrow::stage
