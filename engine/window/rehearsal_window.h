#pragma once

// The window in which a scene is rehearsed.

#include "rehearsal/sitting/sitting.h"

#include "base/length_words.h"
#include "base/problem.h"

#include <optional>
#include <string>

namespace backrow::window {

struct WindowWanted {
    int width = 1366;  ///< Units of the screen.
    int height = 768;
    bool is_dark = false;
    Units lengths = Units::metric;
    double scale = 0;          ///< Of letters and lines; 0: as the screen asks.
    std::string widget_rects;  ///< Where widget_rects.h writes; empty for nowhere.
};

/// Shows the window until it is closed.
/// Fails where the machine has no screen or no OpenGL.
///
/// sitting  none: the first page, on which a scene is chosen or a group begun
[[nodiscard]] Made<void> rehearse(std::optional<rehearsal::Sitting> sitting,
                                  const WindowWanted& wanted);

}  // namespace backrow::window
