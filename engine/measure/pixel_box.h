#pragma once

// A rectangle of pixels within a picture.

namespace backrow::measure {

/// Pixel (left, top) is its first; (left + width_px, top + height_px) lies outside.
struct PixelBox {
    int left = 0;
    int top = 0;
    int width_px = 0;
    int height_px = 0;
    bool operator==(const PixelBox&) const = default;
};

[[nodiscard]] constexpr bool overlap(const PixelBox& one, const PixelBox& other) noexcept {
    return one.left < other.left + other.width_px && other.left < one.left + one.width_px &&
           one.top < other.top + other.height_px && other.top < one.top + one.height_px;
}

[[nodiscard]] constexpr bool lies_within(const PixelBox& box, int width_px,
                                         int height_px) noexcept {
    return box.left >= 0 && box.top >= 0 && box.width_px > 0 && box.height_px > 0 &&
           box.width_px <= width_px - box.left && box.height_px <= height_px - box.top;
}

}  // namespace backrow::measure
