#pragma once

// Rows for columns: what is said of upright edges serves level ones.

#include "measure/pixel_box.h"

#include "base/image.h"

namespace backrow::measure {

[[nodiscard]] inline Image<float> transposed(const Image<float>& picture) {
    Image<float> turned(picture.height_px(), picture.width_px());
    for (int y = 0; y < picture.height_px(); ++y)
        for (int x = 0; x < picture.width_px(); ++x)
            turned.at(y, x) = picture.at(x, y);
    return turned;
}

[[nodiscard]] constexpr PixelBox transposed(const PixelBox& box) noexcept {
    return {box.top, box.left, box.height_px, box.width_px};
}

}  // namespace backrow::measure
