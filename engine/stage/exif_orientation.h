#pragma once

// Which way up a JPEG is meant: cameras often store pixels as the sensor lay and note the turn.

#include "base/image.h"

#include <cstddef>
#include <span>

namespace backrow::stage {

/// Where the first row and the first column of the stored pixels belong in the upright picture. The
/// numbers are those of the file.
enum class ExifOrientation {
    top_left = 1,
    top_right,
    bottom_right,
    bottom_left,
    left_top,
    right_top,
    right_bottom,
    left_bottom
};

/// The orientation tag (0x0112) of the first directory in a JPEG's Exif segment; top_left, upright
/// as stored, where there is none or where anything about it is damaged or unknown.
///
/// jpeg      the bytes of a file, of any kind and in any state; never read past their end
/// source    [EXIF] for the values; the segment and directory are read by libexif
[[nodiscard]] ExifOrientation exif_orientation(std::span<const std::byte> jpeg) noexcept;

/// The picture as it is meant to be looked at.
[[nodiscard]] Image<Rgba8> turned_upright(const Image<Rgba8>& stored, ExifOrientation orientation);

}  // namespace backrow::stage
