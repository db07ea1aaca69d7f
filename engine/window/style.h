#pragma once

// How letters, lines and colours are drawn, wherever on the window.

#include "window/fonts.h"
#include "window/theme.h"

#include "base/length_words.h"

#include <imgui.h>

#include <set>

namespace backrow::window {

struct Style {
    Theme theme = day();
    Fonts fonts;
    std::set<ImWchar> foreign_letters;  ///< That the fonts were loaded with.
    double scale = 1;                   ///< Of letters and lines …
    double asked_scale = 1;             ///< … and what they would be, had the window room.
    Units lengths = Units::metric;      ///< How they are written.
    double texels_per_unit = 1;         ///< Of the screen; 2 where the system enlarges the window.

    /// So many units of a plain screen.
    [[nodiscard]] float units(double plain) const { return static_cast<float>(plain * scale); }
};

}  // namespace backrow::window
