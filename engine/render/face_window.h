#pragma once

// The part of the picture round somebody's face.

#include "render/frame_window.h"

#include "scene/camera_view.h"

#include <optional>

namespace backrow::render {

/// Chin to crown and ear to ear with a margin (a share of the head's height) on every side, at one
/// texel a camera pixel, on whole pixels, whether or not it lies inside the frame. Nothing where the
/// face lies behind the lens.
[[nodiscard]] std::optional<FrameWindow> face_window(const scene::CameraView& view,
                                                     const scene::Person& person, double margin);

}  // namespace backrow::render
