#include "inspection/face_sharpness.h"

#include "measure/detail_blur.h"

#include <algorithm>
#include <cmath>

namespace backrow::inspection {
namespace {

/// Shares of the head's height. Eyes lie half-way between chin and crown; the pupils are 64 mm
/// apart in a head of 230 mm, and the mouth lies a quarter of the head below them. Source: [ANSUR2]
/// for the first, the last from memory.
constexpr double either_side = 0.3;
constexpr double above_eyes = 0.2;
constexpr double below_eyes = 0.3;

/// Heads that were blurred by a fifth of their height look like one that was by a sixteenth.
constexpr double most_share_of_head = 0.05;

measure::PixelBox eyes_and_mouth(const measure::PixelBox& head) {
    const double middle_px = head.left + head.width_px / 2.0;
    const double eyes_px = head.top + head.height_px / 2.0;
    const double height_px = head.height_px;
    return {static_cast<int>(std::lround(middle_px - either_side * height_px)),
            static_cast<int>(std::lround(eyes_px - above_eyes * height_px)),
            static_cast<int>(std::lround(2 * either_side * height_px)),
            static_cast<int>(std::lround((above_eyes + below_eyes) * height_px))};
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

bool is_burnt_out(const Image<float>& part) {
    constexpr float nearly_black = 0.01f;
    constexpr float nearly_white = 0.99f;
    const auto lost = std::ranges::count_if(
        part.pixels(), [](float light) { return light < nearly_black || light > nearly_white; });
    return 4 * static_cast<std::size_t>(lost) > part.pixels().size();
}

}  // namespace

FaceBlur face_blur(const Image<Rgb8>& shown, const measure::PixelBox& head) {
    if (head.height_px < least_head_px)
        return CannotTell::too_small;
    const measure::PixelBox inner = eyes_and_mouth(head);
    if (!lies_within(inner, shown.width_px(), shown.height_px()))
        return CannotTell::outside;
    // With as much beside it as the widest search needs.
    const int beside_px = inner.height_px / 2 + 6;
    const Image<float> part =
        brightness_of(shown, {inner.left - beside_px, inner.top - beside_px,
                              inner.width_px + 2 * beside_px, inner.height_px + 2 * beside_px});
    const measure::PixelBox within{beside_px, beside_px, inner.width_px, inner.height_px};
    if (is_burnt_out(brightness_of(shown, inner)))
        return CannotTell::burnt_out;
    const auto blur_px = measure::detail_blur_px(part, within);
    if (!blur_px)
        return CannotTell::flat;
    if (*blur_px > most_share_of_head * head.height_px)
        return CannotTell::too_blurred;
    return *blur_px;
}

BlurRange range_of(double blur_px) noexcept {
    return {std::max(0.0, blur_px / blur_uncertainty - blur_uncertainty_px),
            blur_px * blur_uncertainty + blur_uncertainty_px};
}

const char* to_word(CannotTell why) noexcept {
    switch (why) {
    case CannotTell::too_small:
        return "too small";
    case CannotTell::outside:
        return "outside";
    case CannotTell::burnt_out:
        return "burnt out";
    case CannotTell::flat:
        return "flat";
    case CannotTell::too_blurred:
        return "too blurred";
    }
    return "";
}

}  // namespace backrow::inspection
