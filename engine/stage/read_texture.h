#pragma once

// Pictures of surfaces out of PNG, JPEG, BMP and TGA files.

#include "base/image.h"

#include <cstddef>
#include <filesystem>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include <tl/expected.hpp>

namespace backrow::stage {

/// The picture, or in a few words why there is none ("has more pixels than …").
///
/// encoded      the bytes of the file
/// most_pixels  width × height may not exceed it; checked before anything is decoded
[[nodiscard]] tl::expected<Image<Rgba8>, std::string>
decode_texture(std::span<const std::byte> encoded, double most_pixels);

/// The bytes of a file, or nothing if it cannot be read or is larger than most_bytes.
[[nodiscard]] std::optional<std::vector<std::byte>> bytes_of(const std::filesystem::path& file,
                                                             std::uintmax_t most_bytes);

}  // namespace backrow::stage
