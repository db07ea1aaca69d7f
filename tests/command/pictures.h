#pragma once

// The files that the program writes, read back without any of its own code.

#include "base/image.h"

#include <string>

namespace backrow::command {

/// A portable float map of three channels, little-endian. Source: [PFM].
[[nodiscard]] Image<Rgb> picture_from_pfm(const std::string& file);

[[nodiscard]] Image<Rgb> picture_from_hdr(const std::string& file);
[[nodiscard]] Image<Rgb8> picture_from_png(const std::string& file);

}  // namespace backrow::command
