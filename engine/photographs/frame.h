#pragma once

// A frame that was taken, out of its file: its light, and what the camera noted beside it.

#include "base/image.h"
#include "base/problem.h"

#include <cstdint>
#include <optional>
#include <string>

namespace backrow::photographs {

/// Limits that keep memory bounded: a frame takes some 20 bytes a pixel while it is read.
inline constexpr double most_frame_megapixels = 100.0;
inline constexpr std::uintmax_t most_frame_bytes = 768u << 20;

/// How the numbers of a file stand for light. Profiles in the file are not looked at.
enum class Encoding {
    srgb,
    linear,  ///< In proportion.
};

/// What of the light counts.
enum class Light {
    luminance,
    green,  ///< As a lens is measured, whose colours may focus apart.
};

struct Frame {
    std::string file;
    Image<float> light;  ///< Linear, 0 … 1; exactly 1 where any channel is full.
    Image<Rgb8> shown;   ///< As the file has it, in 8 bits.
    std::optional<double> f_number{};
    std::optional<double> focal_length_mm{};
};

/// The frame, turned upright as the camera noted.
///
/// errors  one problem: cannot be read, no PNG or JPEG, damaged, too large
[[nodiscard]] Checked<Frame> read_frame(const std::string& file, Encoding encoding,
                                        Light light = Light::luminance);

/// Whether the name ends as those of files that read_frame() reads.
[[nodiscard]] bool is_frame_name(const std::string& file);

}  // namespace backrow::photographs
