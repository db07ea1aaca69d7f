#include "inspection/face_region.h"

#include <algorithm>
#include <cmath>

namespace backrow::inspection {

measure::PixelBox eyes_and_mouth(const measure::PixelBox& head) {
    const double middle_px = head.left + head.width_px / 2.0;
    const double eyes_px = head.top + head.height_px / 2.0;
    const double height_px = head.height_px;
    return {static_cast<int>(std::lround(middle_px - either_side * height_px)),
            static_cast<int>(std::lround(eyes_px - above_eyes * height_px)),
            static_cast<int>(std::lround(2 * either_side * height_px)),
            static_cast<int>(std::lround((above_eyes + below_eyes) * height_px))};
}

measure::PixelBox both_eyes(const measure::PixelBox& head) {
    constexpr double above_and_below = 0.14;
    measure::PixelBox eyes = eyes_and_mouth(head);
    eyes.height_px = static_cast<int>(std::lround(2 * above_and_below * head.height_px));
    eyes.top = head.top + (head.height_px - eyes.height_px) / 2;
    return eyes;
}

measure::PixelBox widened(const measure::PixelBox& box, int by_px) {
    return {box.left - by_px, box.top - by_px, box.width_px + 2 * by_px, box.height_px + 2 * by_px};
}

Image<float> brightness_of(const Image<Rgb8>& shown, const measure::PixelBox& box) {
    Image<float> part(box.width_px, box.height_px);
    for (int y = 0; y < box.height_px; ++y)
        for (int x = 0; x < box.width_px; ++x) {
            const Rgb8& pixel = shown.at(std::clamp(box.left + x, 0, shown.width_px() - 1),
                                         std::clamp(box.top + y, 0, shown.height_px() - 1));
            part.at(x, y) = (2 * pixel.r + 5 * pixel.g + pixel.b) / (8 * 255.0f);
        }
    return part;
}

}  // namespace backrow::inspection
