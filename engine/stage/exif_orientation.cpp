#include "stage/exif_orientation.h"

#include <libexif/exif-data.h>
#include <libexif/exif-loader.h>

#include <algorithm>
#include <initializer_list>
#include <limits>
#include <memory>

namespace backrow::stage {
namespace {

struct Release {
    void operator()(ExifLoader* loader) const noexcept { exif_loader_unref(loader); }
    void operator()(ExifData* exif) const noexcept { exif_data_unref(exif); }
};

// The loader and not exif_data_new_from_data(), which gives up at a comment before the segment. It
// says what is wrong with a file only to a log that it is given: here, to nobody.
std::unique_ptr<ExifData, Release> exif_of(std::span<const std::byte> jpeg) noexcept {
    const std::unique_ptr<ExifLoader, Release> loader{exif_loader_new()};
    if (!loader || jpeg.size() > std::numeric_limits<unsigned int>::max())
        return nullptr;
    // It reads only, for all that its argument is not const.
    auto* bytes = const_cast<unsigned char*>(reinterpret_cast<const unsigned char*>(jpeg.data()));
    exif_loader_write(loader.get(), bytes, static_cast<unsigned int>(jpeg.size()));
    return std::unique_ptr<ExifData, Release>{exif_loader_get_data(loader.get())};
}

}  // namespace

ExifOrientation exif_orientation(std::span<const std::byte> jpeg) noexcept {
    constexpr auto as_stored = ExifOrientation::top_left;
    const auto exif = exif_of(jpeg);
    if (!exif)
        return as_stored;
    const ExifEntry* noted = exif_content_get_entry(exif->ifd[EXIF_IFD_0], EXIF_TAG_ORIENTATION);
    if (noted == nullptr || noted->format != EXIF_FORMAT_SHORT || noted->components != 1)
        return as_stored;
    const int value = exif_get_short(noted->data, exif_data_get_byte_order(exif.get()));
    return value >= 1 && value <= 8 ? static_cast<ExifOrientation>(value) : as_stored;
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
