#pragma once

// Faces in a photograph, found by Debian's dlib where the program was built with it.

#include "measure/pixel_box.h"

#include "base/image.h"

#include <vector>

namespace backrow::inspection {

/// Whether there is anything to find them with.
[[nodiscard]] bool heads_can_be_found() noexcept;

/// Heads that look towards the camera, chin to crown and ear to ear, from left to right; they may
/// reach beyond the picture. Found at 27 px a head and larger; a picture of over 3,000 px is looked
/// at smaller. None where nothing can be found.
[[nodiscard]] std::vector<measure::PixelBox> find_heads(const Image<Rgb8>& shown);

}  // namespace backrow::inspection
