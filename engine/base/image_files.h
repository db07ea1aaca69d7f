#pragma once

// Pictures as the bytes of files, ready to be written.

#include "base/image.h"

#include <cstddef>
#include <vector>

namespace backrow {

using Bytes = std::vector<std::byte>;

/// PNG, 8 bits a channel. The picture must not be empty.
[[nodiscard]] Bytes png_bytes(const Image<Rgb8>& picture);
[[nodiscard]] Bytes png_bytes(const Image<Rgba8>& picture);

/// Portable float map, little-endian, lossless. Rows run from the bottom, as the format has it.
/// Source: [PFM].
[[nodiscard]] Bytes pfm_bytes(const Image<Rgb>& picture);

/// Radiance RGBE, mantissas rounded to nearest: each channel within 1/256 of the brightest one's
/// power of two. Negative values become 0. Source: [RADIANCE].
[[nodiscard]] Bytes radiance_bytes(const Image<Rgb>& picture);

}  // namespace backrow
