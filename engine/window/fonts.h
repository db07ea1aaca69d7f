#pragma once

// The letters of the window: the program's own text in DejaVu Sans, and names in whatever script
// people have, as far as a font of the system holds it.
//
// Letters stand one beside the other from left to right: the toolkit neither joins nor turns them.

#include <imgui.h>

#include <set>
#include <string_view>

namespace backrow::window {

struct Fonts {
    ImFont* plain = nullptr;
    ImFont* bold = nullptr;
    ImFont* small = nullptr;
    ImFont* large = nullptr;
};

/// The letters of a text that load_fonts() takes only when asked, and that the toolkit can count:
/// those up to U+FFFF.
[[nodiscard]] std::set<ImWchar> foreign_letters(std::string_view text);

/// Puts the letters of DejaVu Sans, or of what the system has instead, into the toolkit's atlas,
/// and the foreign ones from the fonts nearest to it that hold them. What no font holds stays "?".
/// Fonts handed out before are no more; textures made of the atlas are out of date.
/// scale  as Screen::scale()
[[nodiscard]] Fonts load_fonts(double scale, const std::set<ImWchar>& foreign);

}  // namespace backrow::window
