#pragma once

// Which part of a head is looked at. Shares are of the head's height.

#include "measure/pixel_box.h"

#include "base/image.h"

namespace backrow::inspection {

/// Eyes lie half-way between chin and crown; the pupils are 64 mm apart in a head of 230 mm, and
/// the mouth lies a quarter of the head below them. Source: [ANSUR2] for the first two, the last
/// from memory.
inline constexpr double either_side = 0.3;
inline constexpr double above_eyes = 0.2;
inline constexpr double below_eyes = 0.3;

/// head  chin to crown and ear to ear
[[nodiscard]] measure::PixelBox eyes_and_mouth(const measure::PixelBox& head);

/// Both eyes with what is about them.
[[nodiscard]] measure::PixelBox both_eyes(const measure::PixelBox& head);

[[nodiscard]] measure::PixelBox widened(const measure::PixelBox& box, int by_px);

/// As it is shown, 0 … 1; beyond the border the picture goes on as it ends.
[[nodiscard]] Image<float> brightness_of(const Image<Rgb8>& shown, const measure::PixelBox& box);

}  // namespace backrow::inspection
