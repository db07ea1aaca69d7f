#pragma once

// Files of the place, and how large a photo of it is.

#include "window/window_state.h"

#include <string>

namespace backrow::window {

/// The one place where a file of the place is asked for: a photo, a panorama, a model.
void ask_for_place_file(WindowState& state, Sheet sheet);

// Each takes the file that was asked for, or says on the sheet what is wrong with it.
void hang_photo(WindowState& state, const std::string& path);
void hang_panorama(WindowState& state, const std::string& path);
void add_model(WindowState& state, const std::string& path);

/// Shows the photo of a backdrop, to click two of its points.
void ask_for_photo_size(WindowState& state, std::size_t backdrop);
/// As far apart as was typed, the two points that were clicked are.
void size_photo(WindowState& state);

}  // namespace backrow::window
