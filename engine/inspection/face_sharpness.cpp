#include "inspection/face_sharpness.h"

#include "inspection/face_region.h"

#include "measure/detail_blur.h"

#include <algorithm>
#include <cmath>

namespace backrow::inspection {
namespace {

/// Heads that were blurred by a fifth of their height look like one that was by a sixteenth.
constexpr double most_share_of_head = 0.05;

/// Blurs below the first number look alike.
constexpr double least_told_px = 0.6;
constexpr double uncertain_factor = 1.6;
constexpr double uncertain_px = 0.5;

bool is_burnt_out(const Image<float>& part) {
    constexpr float nearly_black = 0.01f;
    constexpr float nearly_white = 0.99f;
    const auto lost = std::ranges::count_if(
        part.pixels(), [](float light) { return light < nearly_black || light > nearly_white; });
    return 4 * static_cast<std::size_t>(lost) > part.pixels().size();
}

}  // namespace

bool Blur::is_told() const noexcept {
    constexpr double share = 0.15;
    constexpr double least_px = 0.5;
    return std::max(to_px - px, px - from_px) <= std::max(least_px, share * px);
}

std::optional<CannotTell> hindrance(const Image<Rgb8>& shown, const measure::PixelBox& head) {
    if (head.height_px < least_head_px)
        return CannotTell::too_small;
    const measure::PixelBox inner = eyes_and_mouth(head);
    if (!lies_within(inner, shown.width_px(), shown.height_px()))
        return CannotTell::outside;
    if (is_burnt_out(brightness_of(shown, inner)))
        return CannotTell::burnt_out;
    return std::nullopt;
}

FaceBlur face_blur(const Image<Rgb8>& shown, const measure::PixelBox& head) {
    if (const auto hindered = hindrance(shown, head))
        return *hindered;
    const measure::PixelBox inner = eyes_and_mouth(head);
    // With as much beside it as the widest search needs.
    const int beside_px = inner.height_px / 2 + 6;
    const auto blur_px =
        measure::detail_blur_px(brightness_of(shown, widened(inner, beside_px)),
                                {beside_px, beside_px, inner.width_px, inner.height_px});
    if (!blur_px)
        return CannotTell::flat;
    if (*blur_px > most_share_of_head * head.height_px)
        return CannotTell::too_blurred;
    const double px = std::max(least_told_px, *blur_px);
    return Blur{.px = px,
                .from_px = std::max(0.0, px / uncertain_factor - uncertain_px),
                .to_px = px * uncertain_factor + uncertain_px};
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
