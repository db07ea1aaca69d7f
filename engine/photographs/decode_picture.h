#pragma once

// Pictures out of PNG, JPEG, BMP and TGA files: photographs, and what is painted on surfaces.

#include "base/image.h"

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include <tl/expected.hpp>

namespace backrow::photographs {

/// The picture, or in a few words why there is none ("has more pixels than …").
///
/// encoded      the bytes of the file
/// most_pixels  width × height may not exceed it; checked before anything is decoded
[[nodiscard]] tl::expected<Image<Rgba8>, std::string>
decode_picture(std::span<const std::byte> encoded, double most_pixels);

/// Sixteen bits a channel.
struct Rgb16 {
    std::uint16_t r = 0, g = 0, b = 0;
};

/// Likewise with sixteen bits a channel; where the file has eight, each is 257 times as large.
[[nodiscard]] tl::expected<Image<Rgb16>, std::string>
decode_deep_picture(std::span<const std::byte> encoded, double most_pixels);

/// The bytes of a file, or nothing if it cannot be read or is larger than most_bytes.
[[nodiscard]] std::optional<std::vector<std::byte>> bytes_of(const std::filesystem::path& file,
                                                             std::uintmax_t most_bytes);

}  // namespace backrow::photographs
