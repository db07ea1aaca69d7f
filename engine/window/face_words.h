#pragma once

// How sharp a face is, in the few words for which a window has room.

#include "plan/faces/face_table.h"

#include "base/length_words.h"

#include <string>

namespace backrow::window {

/// The first letters of a number as long as they count: "8.4", "132".
[[nodiscard]] std::string short_number(double number);

/// "8.4 px, soft"; "hidden by Odile", "cut at the crown".
[[nodiscard]] std::string blur_words(const plan::Face& face);

/// "8.1 px by defocus, 2.2 px by the lens"; nothing through a perfect one.
[[nodiscard]] std::string blur_parts_words(const plan::Face& face);

/// "12 cm behind the plane of focus".
[[nodiscard]] std::string offset_words(const plan::Face& face, Units units);

}  // namespace backrow::window
