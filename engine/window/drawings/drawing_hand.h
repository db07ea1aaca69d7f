#pragma once

// The hand on a drawing: what it does there this frame, done to the state.

#include "window/window_state.h"

#include "rehearsal/hands/drag.h"

namespace backrow::window {

struct DrawingInput {
    bool is_hovered = false;
    bool is_pressed = false;  ///< The left button, in this frame.
    rehearsal::Pointer pointer;
};

/// Lays paper over the area and takes what the hand does on it.
///
/// name         of the drawing, for scripts
/// reach_units  how near to a thing the pointer grips it
/// unlay        to the drawing's points from those on the paper
[[nodiscard]] DrawingInput take_input(WindowState& state, const Area& area, const char* name,
                                      const DrawingView& view, double reach_units,
                                      plan::DrawingPoint (*unlay)(const plan::DrawingPoint&));

/// Who was pressed is chosen, what was gripped is dragged from now on.
void obey(WindowState& state, const rehearsal::Press& press);

/// A pointer that has moved less has clicked and not dragged; units of the screen.
inline constexpr float click_units = 3;

/// Whatever of this drawing is being dragged goes where the pointer is.
void drag_on(WindowState& state, rehearsal::Drawing drawing, const rehearsal::Pointer& pointer);

/// The wheel zooms about the pointer, the right button pans, a double click shows all again.
///
/// may_zoom  not where the wheel has done something else
void zoom_and_pan(DrawingView& view, bool may_zoom);

}  // namespace backrow::window
