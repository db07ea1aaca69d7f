#pragma once

// How sharp a face is in a frame that was taken.

#include "measure/pixel_box.h"

#include "base/image.h"

#include <optional>
#include <variant>

namespace backrow::inspection {

/// Why nothing is claimed of a face.
enum class CannotTell {
    too_small,    ///< The head is lower than least_head_px.
    outside,      ///< Eyes and mouth are not all in the picture.
    burnt_out,    ///< A quarter of it is black or white without detail.
    flat,         ///< No detail above the noise.
    too_blurred,  ///< Over a twentieth of the head: more would look the same.
};

inline constexpr int least_head_px = 48;

/// The blur at eyes and mouth as the diameter of a disc, an estimate: on rendered faces two thirds
/// are within 15 % or half a pixel, and 95 % within this factor and so many pixels.
inline constexpr double blur_uncertainty = 1.6;
inline constexpr double blur_uncertainty_px = 0.8;

struct BlurRange {
    double from_px = 0;
    double to_px = 0;
};

/// Within which a blur that was estimated lies in 95 % of cases.
[[nodiscard]] BlurRange range_of(double blur_px) noexcept;

/// Pixels, or why not.
using FaceBlur = std::variant<double, CannotTell>;

/// head  chin to crown and ear to ear
[[nodiscard]] FaceBlur face_blur(const Image<Rgb8>& shown, const measure::PixelBox& head);

/// "too small", "outside", "burnt out", "flat", "too blurred".
[[nodiscard]] const char* to_word(CannotTell why) noexcept;

}  // namespace backrow::inspection
