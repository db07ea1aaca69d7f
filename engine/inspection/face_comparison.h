#pragma once

// One person's faces in several frames compared, which tells more than each alone: how much more
// one is blurred than the sharpest, in what direction, and whether its lids are down.

#include "inspection/face_sharpness.h"

#include "measure/pixel_box.h"

#include "base/image.h"

#include <cstdint>
#include <optional>
#include <vector>

namespace backrow::inspection {

/// What is kept of a face to be compared: brightness as it is shown, 0 … 255, of eyes and mouth
/// with something beside them.
struct FaceDetail {
    Image<std::uint8_t> shown;
    measure::PixelBox within{};  ///< Eyes and mouth.
    int pixels_a_side = 1;       ///< Of the frame in one of these: large heads are kept smaller.
};

/// Empty where there is nothing to compare: the head is too small, not in the picture or burnt out.
[[nodiscard]] FaceDetail face_detail(const Image<Rgb8>& shown, const measure::PixelBox& head);

struct ComparedFace : FaceSharpness {  ///< Of it alone, and after comparing what all tell.
    FaceDetail detail{};
    double head_px = 0;  ///< Height.
    std::optional<double> lids_open{};
};

/// All of one person. Where no face is sharp enough to go by, or another has nothing in common with
/// it, that one stays as it was.
void compare(std::vector<ComparedFace>& faces);

}  // namespace backrow::inspection
