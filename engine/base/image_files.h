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

/// No side of a JPEG is longer: its sizes are written in 16 bits.
inline constexpr int longest_jpeg_side_px = 65535;
inline constexpr int usual_jpeg_quality = 92;

/// JPEG, baseline. Colours are as finely resolved as light above a quality of 90, half as finely up
/// to it. The picture must not be empty, nor longer on a side than longest_jpeg_side_px.
///
/// quality  1 … 100
[[nodiscard]] Bytes jpeg_bytes(const Image<Rgb8>& picture, int quality);

/// No side of a WebP is longer.
inline constexpr int longest_webp_side_px = 16383;

/// WebP, lossy: half of a JPEG that looks as good. The picture must not be empty, nor longer on a
/// side than longest_webp_side_px.
///
/// quality  1 … 100
[[nodiscard]] Bytes webp_bytes(const Image<Rgb8>& picture, int quality);

/// Portable float map, little-endian, lossless. Rows run from the bottom, as the format has it.
/// Source: [PFM].
[[nodiscard]] Bytes pfm_bytes(const Image<Rgb>& picture);

/// Radiance RGBE, mantissas rounded to nearest: each channel within 1/256 of the brightest one's
/// power of two. Negative values become 0. Source: [RADIANCE].
[[nodiscard]] Bytes radiance_bytes(const Image<Rgb>& picture);

}  // namespace backrow
