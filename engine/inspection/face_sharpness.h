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

/// The diameter of the disc that blurs as much, and where it lies in 95 % of cases.
struct Blur {
    double px = 0;
    double from_px = 0;
    double to_px = 0;

    /// Whether it is known to 15 % or half a pixel; else it is a rough estimate.
    [[nodiscard]] bool is_told() const noexcept;
};

/// A blur, or why there is none.
using FaceBlur = std::variant<Blur, CannotTell>;

/// What keeps this face from being looked at at all: its size, its place, its light.
///
/// head  chin to crown and ear to ear
[[nodiscard]] std::optional<CannotTell> hindrance(const Image<Rgb8>& shown,
                                                  const measure::PixelBox& head);

/// By this face alone, from how its detail fades: on rendered faces two thirds are within 15 % or
/// half a pixel, and 95 % within a factor of 1.6 and 0.8 px.
[[nodiscard]] FaceBlur face_blur(const Image<Rgb8>& shown, const measure::PixelBox& head);

/// "too small", "outside", "burnt out", "flat", "too blurred".
[[nodiscard]] const char* to_word(CannotTell why) noexcept;

}  // namespace backrow::inspection
