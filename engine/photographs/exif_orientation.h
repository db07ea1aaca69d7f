#pragma once

// Which way up a photograph is meant: cameras often store pixels as the sensor lay and note the
// turn.

#include "base/image.h"

#include <algorithm>
#include <cstddef>
#include <initializer_list>
#include <span>

namespace backrow::photographs {

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

/// The orientation tag (0x0112) of the first directory in a file's Exif segment; top_left, upright
/// as stored, where there is none or where anything about it is damaged or unknown.
///
/// file      its bytes, of any kind and in any state; never read past their end
/// source    [EXIF] for the values; the segment and directory are read by libexif
[[nodiscard]] ExifOrientation exif_orientation(std::span<const std::byte> file) noexcept;

/// The picture as it is meant to be looked at.
template <class Pixel>
[[nodiscard]] Image<Pixel> turned_upright(const Image<Pixel>& stored, ExifOrientation orientation) {
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
    Image<Pixel> upright{width, height};
    for (int y = 0; y < height; ++y) {
        for (int x = 0; x < width; ++x) {
            const int across = starts_right ? width - 1 - x : x;
            const int down = starts_below ? height - 1 - y : y;
            upright.at(x, y) = is_on_side ? stored.at(down, across) : stored.at(across, down);
        }
    }
    return upright;
}

}  // namespace backrow::photographs
