#pragma once

// What of the two drawings shows, and what is being dragged on one of them.

#include "plan/drawings/drawing_scale.h"
#include "rehearsal/hands/drag.h"

#include <optional>

namespace backrow::window {

struct DrawingView {
    plan::DrawingScale scale;
    bool is_fitted = true;  ///< To what has to be seen, until somebody zooms.

    /// Fitted anew, unless somebody has zoomed.
    void fit(const plan::Extent& extent, const plan::ScreenArea& area, double margin) {
        if (is_fitted)
            scale = plan::fitted(extent, area, margin);
    }
    void zoom(const plan::ScreenPoint& about, double factor) {
        scale = plan::zoomed(scale, about, factor);
        is_fitted = false;
    }
    void pan(double right, double down) {
        scale = plan::panned(scale, right, down);
        is_fitted = false;
    }
};

struct Drawings {
    DrawingView above;
    DrawingView side;
    std::optional<rehearsal::Drag> drag;

    /// All of both, when they are drawn next.
    void show_all() { above.is_fitted = side.is_fitted = true; }
};

}  // namespace backrow::window
