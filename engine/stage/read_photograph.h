#pragma once

// The photographer's own pictures of the place, out of their files.

#include "base/image.h"
#include "base/problem.h"

#include <cstdint>
#include <string>

namespace backrow::stage {

/// Limits that keep every picture renderable.
inline constexpr double most_photograph_megapixels = 100.0;
/// Longer pictures are halved until they fit: cards need not take longer ones.
inline constexpr int longest_photograph_px = 8192;

enum class PhotographShape {
    any,
    equirectangular,  ///< Twice as wide as high, within a hundredth.
};

/// The picture, turned as a JPEG notes beside its pixels (photographs/exif_orientation.h).
///
/// named_at  where the scene names the file
/// errors    one problem at that place: cannot be read, not PNG, JPEG, BMP or TGA, damaged, too
///           large, or not of the shape
[[nodiscard]] Checked<Image<Rgba8>> read_photograph(const std::string& file, const Place& named_at,
                                                    PhotographShape shape);

/// Half as wide and high, four pixels to one, their mean taken in linear light; the last column or
/// row of an odd number is left out. Both sides at least 2 px.
[[nodiscard]] Image<Rgba8> halved(const Image<Rgba8>& picture);

}  // namespace backrow::stage
