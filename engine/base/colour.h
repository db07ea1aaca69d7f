#pragma once

// sRGB encoding and decoding of one channel.

#include <cmath>

namespace backrow {

/// The sRGB transfer function. linear in 0 … 1; returns 0 … 1. Source: [IEC61966].
[[nodiscard]] inline float srgb_from_linear(float linear) noexcept {
    return linear <= 0.0031308f ? 12.92f * linear : 1.055f * std::pow(linear, 1.0f / 2.4f) - 0.055f;
}

/// Its inverse. Source: [IEC61966].
[[nodiscard]] inline float linear_from_srgb(float encoded) noexcept {
    return encoded <= 0.04045f ? encoded / 12.92f : std::pow((encoded + 0.055f) / 1.055f, 2.4f);
}

}  // namespace backrow
