#pragma once

// How the window looks: paper and ink by day, slate by night, one accent, and the grades' colours,
// which people with any common colour blindness tell apart and which never stand without a shape or
// a word.

#include "plan/faces/verdict.h"

#include <imgui.h>

namespace backrow::window {

struct Theme {
    bool is_dark = false;
    ImU32 desk = 0;    ///< Behind everything.
    ImU32 paper = 0;   ///< What drawings and panels lie on.
    ImU32 raised = 0;  ///< Buttons.
    ImU32 ink = 0;
    ImU32 faint_ink = 0;
    ImU32 rule = 0;    ///< Hairlines.
    ImU32 accent = 0;  ///< What is chosen, what moves.
    ImU32 accent_wash = 0;
    ImU32 frame_wash = 0;  ///< Field of view.
    ImU32 fine_wash = 0;
    ImU32 crisp_wash = 0;
    ImU32 focus = 0;   ///< The plane of focus.
    ImU32 ground = 0;  ///< Risers, seats, models.
};

[[nodiscard]] Theme day() noexcept;
[[nodiscard]] Theme night() noexcept;

/// Makes the toolkit's own parts look so.
void apply(const Theme& theme, double scale);

[[nodiscard]] ImU32 verdict_ink(plan::Verdict verdict) noexcept;
[[nodiscard]] ImU32 with_alpha(ImU32 colour, int alpha) noexcept;

/// The sign of a verdict as the sheets have it (report/drawing/verdict_mark.h).
/// left, top  of a box of 22 × 14 times the size
void draw_verdict(ImDrawList& on, const ImVec2& left_top, plan::Verdict verdict, double size);

/// The mark of whom it is focused on: the plane of focus, as it comes to both sides of a face.
/// left, right  x of its strokes' inner ends; they are so long outwards
void draw_focus_mark(ImDrawList& on, const Theme& theme, float y, float left, float right,
                     float length, double scale);

}  // namespace backrow::window
