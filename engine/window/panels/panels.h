#pragma once

// The parts of the window with buttons and numbers.

#include "window/window_state.h"

namespace backrow::window {

/// As high as its buttons need, one line or more.
[[nodiscard]] float top_bar_height(const WindowState& state, float width);
void draw_top_bar(WindowState& state, const Area& area);
/// In a corner of a part: it takes the room of the others, or gives it back.
void draw_enlarger(WindowState& state, Part part, const Area& area);
/// Camera, person, advice, odds, one at a time.
void draw_panel(WindowState& state, const Area& area);
void draw_camera_panel(WindowState& state);
void draw_person_panel(WindowState& state);
void draw_advice_panel(WindowState& state);
void draw_odds_panel(WindowState& state);
/// One line: what went wrong, what was done, or how the picture comes along.
[[nodiscard]] float foot_height(const WindowState& state, float width);
void draw_foot(WindowState& state, const Area& area);
/// Whatever lies over the window.
void draw_sheet(WindowState& state);

/// A value with a button at each side; −1, 0 or +1 for what was pressed. words are drawn between.
[[nodiscard]] int stepper(WindowState& state, const char* label, const std::string& words,
                          const char* less, const char* more, const char* lesson);
/// "Every face fine or crisp". Whether it was changed.
///
/// name  of the question, for the toolkit
bool choose_grade(optics::Grade& grade, const char* name);
/// A button with its rectangle noted and a lesson; whether it was pressed.
[[nodiscard]] bool button(WindowState& state, const char* label, const char* lesson);

}  // namespace backrow::window
