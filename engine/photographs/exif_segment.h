#pragma once

// What a camera notes beside the pixels, as libexif has it. For the files of this folder.

#include <libexif/exif-data.h>

#include <cstddef>
#include <memory>
#include <span>

namespace backrow::photographs {

struct ExifRelease {
    void operator()(ExifData* exif) const noexcept { exif_data_unref(exif); }
};
using Exif = std::unique_ptr<ExifData, ExifRelease>;

/// The segment of a JPEG or the chunk `eXIf` of a PNG; nothing where there is none.
///
/// file  its bytes, of any kind and in any state; never read past their end
[[nodiscard]] Exif exif_of(std::span<const std::byte> file) noexcept;

}  // namespace backrow::photographs
