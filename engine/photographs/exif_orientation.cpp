#include "photographs/exif_orientation.h"

#include "photographs/exif_segment.h"

namespace backrow::photographs {
ExifOrientation exif_orientation(std::span<const std::byte> file) noexcept {
    constexpr auto as_stored = ExifOrientation::top_left;
    const auto exif = exif_of(file);
    if (!exif)
        return as_stored;
    const ExifEntry* noted = exif_content_get_entry(exif->ifd[EXIF_IFD_0], EXIF_TAG_ORIENTATION);
    if (noted == nullptr || noted->format != EXIF_FORMAT_SHORT || noted->components != 1)
        return as_stored;
    const int value = exif_get_short(noted->data, exif_data_get_byte_order(exif.get()));
    return value >= 1 && value <= 8 ? static_cast<ExifOrientation>(value) : as_stored;
}

}  // namespace backrow::photographs
