#pragma once

// What a notch of the wheel does, with or without a key pressed.

#include "rehearsal/hands/handling.h"

#include "scene/camera_view.h"
#include "scene/scene.h"

#include <cstddef>

namespace backrow::rehearsal {

/// One notch.
struct Notch {
    bool is_forward = true;  ///< Away from the hand.
    bool with_ctrl = false;
    bool with_shift = false;
    bool with_alt = false;
};

/// Over the picture the wheel is the ring of the aperture; with Shift the camera's distance, with
/// Ctrl the focal length, with Alt the focus.
///
/// view  camera_view() of this scene
[[nodiscard]] Change turn_wheel_over_picture(const scene::Scene& scene,
                                             const scene::CameraView& view, const Notch& notch);

/// Over somebody, Ctrl turns and Shift leans; no values without either.
[[nodiscard]] Change turn_wheel_over_person(const scene::Scene& scene, std::size_t person,
                                            const Notch& notch);

}  // namespace backrow::rehearsal
