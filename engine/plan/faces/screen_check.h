#pragma once

// How far to magnify on the camera's own screen to judge a face there as the finished picture will
// be judged.

#include "scene/scene.h"

namespace backrow::plan {

/// A camera's screen in somebody's hand: 3.2 inches, 720 pixels across, seen from 30 cm. Common
/// practice, no source.
inline constexpr double screen_long_side_mm = 68;
inline constexpr double screen_long_side_px = 720;
inline constexpr double screen_seen_from_mm = 300;

/// Times the whole picture on that screen. Of a print, until a face is as large to the eye as it
/// will be there:
///
///     (long side / distance of the print) / (long side / distance of the screen)
///
/// but no further than one pixel for one, which is what a picture that is looked at pixel by pixel
/// is magnified to. Never below 1.
[[nodiscard]] double screen_magnification(const scene::Viewing& viewing,
                                          const scene::Camera& camera) noexcept;

}  // namespace backrow::plan
