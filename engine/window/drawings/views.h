#pragma once

// The parts of the window that show the scene, each drawn into its area once a frame. What a hand
// does in them is done to the state at once.

#include "window/window_state.h"

namespace backrow::window {

/// The picture, with the marks of who is not sharp; a click focuses, the wheel turns the rings.
void draw_camera_view(WindowState& state, const Area& area);

/// To scale: people, camera and plane of focus can be gripped.
void draw_view_from_above(WindowState& state, const Area& area);

/// Heads in profile: they can be moved back and forward, and leant.
void draw_view_from_the_side(WindowState& state, const Area& area);

/// Everybody's eyes at camera pixels, worst first.
void draw_faces(WindowState& state, const Area& area);

}  // namespace backrow::window
