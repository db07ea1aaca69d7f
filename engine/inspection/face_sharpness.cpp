#include "inspection/face_sharpness.h"

#include "inspection/face_region.h"

#include "measure/detail_blur.h"

#include <algorithm>
#include <cmath>

namespace backrow::inspection {
namespace {

/// Larger heads tell no more: detail is no finer than a skin's, and all of it takes long to look
/// at.
constexpr int most_head_px = 400;

/// Waves longer than a tenth of a head are its build. Shorter ones have less power the shorter they
/// are, and where lids are down less yet, most of it down, for lids lie across. By calibration with
/// rendered faces; that of a real one is the same within a tenth.
constexpr double knee_of_head = 0.1;
constexpr measure::SharpDetail of_open_eyes(double knee_px) {
    return {.knee_px = knee_px};
}
constexpr measure::SharpDetail of_shut_eyes(double knee_px) {
    return {.knee_px = knee_px, .fall = 4.05, .fall_error = 0.3, .more_across = -0.8};
}
constexpr measure::SharpDetail of_unknown_eyes(double knee_px) {
    return {.knee_px = knee_px, .fall = 3.2, .fall_error = 0.35, .more_across = -0.2};
}
/// Between the two where lids are half down.
constexpr double lids_half_down = 0.255;

/// What the range by one face does not know of: how people differ.
constexpr double unlike_share = 0.08;
constexpr double unlike_px = 0.1;
/// A sharp face with little fine detail looks as blurred as by this disc.
constexpr double like_little_detail_px = 1.0;
/// And a larger head than those of the calibration, with pores and stubble that are then seen,
/// looks sharper than it is, at 340 px as if it were not blurred by two.
constexpr double calibrated_head_px = 140;
constexpr double like_more_detail_of_head = 0.01;
/// And of long strokes, of which the waves that tell them apart are part of a head's build.
constexpr double unlike_stroke_share = 0.15;
constexpr double long_stroke_of_head = 0.05;

constexpr double surely = 0.9;
constexpr double surely_moved = 0.97;
constexpr double surely_along = 0.8;
constexpr double surely_round = 0.95;

/// Two eyes beside each other look like one that was moved across.
constexpr double like_two_eyes_of_head = 0.04;
constexpr double like_two_eyes_deg = 15;

/// A disc from here on is a blur that shows, and a stroke, which noise and the blocks of a JPEG
/// make look longer along their rows.
constexpr double least_focus_px = 1.2;
constexpr double least_stroke_px = 2.4;

/// Blurs under this look alike: whoever may have it may have none, and where that is told, is taken
/// to have little more, for most faces in a frame of a group are about in focus.
constexpr double looks_sharp_px = 0.48;

/// That little, so that such faces keep their order: what is found, and from a third of a pixel on
/// ever less of it, to half a pixel.
double little_px(double px) {
    constexpr double as_found_px = 0.35;
    constexpr double rest_px = 0.15;
    return px < as_found_px ? px
                            : as_found_px + rest_px * (1 - std::exp((as_found_px - px) / rest_px));
}

bool is_burnt_out(const Image<float>& part) {
    constexpr float nearly_black = 0.01f;
    constexpr float nearly_white = 0.99f;
    const auto lost = std::ranges::count_if(
        part.pixels(), [](float light) { return light < nearly_black || light > nearly_white; });
    return 4 * static_cast<std::size_t>(lost) > part.pixels().size();
}

/// Means of squares of pixels.
Image<float> smaller(Image<float> picture, int side) {
    if (side == 1)
        return picture;
    Image<float> means(picture.width_px() / side, picture.height_px() / side);
    for (int y = 0; y < means.height_px(); ++y)
        for (int x = 0; x < means.width_px(); ++x)
            for (int j = 0; j < side; ++j)
                for (int i = 0; i < side; ++i)
                    means.at(x, y) +=
                        picture.at(x * side + i, y * side + j) / static_cast<float>(side * side);
    return means;
}

}  // namespace

double Blur::near_px(double px) noexcept {
    constexpr double share = 0.15;
    constexpr double least_px = 0.5;
    return std::max(least_px, share * px);
}

bool Blur::is_told() const noexcept {
    // A range holds nine tenths, most of them in its middle: in a tenth more than is near 95 % are.
    constexpr double more = 1.1;
    const double half_px = (to_px - from_px) / 2;
    return half_px <= more * near_px((from_px + to_px) / 2);
}

Blur blur_within(double px, double from_px, double to_px) noexcept {
    const bool may_be_none = from_px < looks_sharp_px;
    Blur blur{.px = px, .from_px = may_be_none ? 0 : from_px, .to_px = to_px};
    if (blur.is_told()) {
        const double middle_px = (blur.from_px + to_px) / 2;
        const double near_px = Blur::near_px(middle_px);
        blur.px = std::clamp(px, std::min(middle_px, to_px - near_px),
                             std::max(middle_px, blur.from_px + near_px));
    }
    if (may_be_none && blur.is_told())
        blur.px = little_px(blur.px);
    return blur;
}

bool surely_sharper(const Blur& one, const Blur& other) noexcept {
    return one.to_px < other.px && one.px < other.from_px;
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

FaceSharpness face_sharpness(const Image<Rgb8>& shown, const measure::PixelBox& head,
                             const std::optional<FaceMarks>& marks, double noise_variance) {
    if (const auto hindered = hindrance(shown, head))
        return {.blur = *hindered};
    const measure::PixelBox inner = eyes_and_mouth(head);
    const int side = (head.height_px + most_head_px - 1) / most_head_px;
    const Image<float> part = smaller(brightness_of(shown, inner), side);
    const double head_px = head.height_px;
    const double knee_px = knee_of_head * head_px / side;
    const measure::SharpDetail sharp = !marks ? of_unknown_eyes(knee_px)
                                       : marks->lids_open < lids_half_down ? of_shut_eyes(knee_px)
                                                                           : of_open_eyes(knee_px);
    const auto found = measure::detail_blur(part, {0, 0, part.width_px(), part.height_px()}, sharp,
                                            noise_variance / (side * side));
    if (!found)
        return {.blur = CannotTell::flat};
    FaceSharpness face;
    const double px = found->px * side;
    const bool is_along = found->moved > surely_moved && found->direction_sure > surely_along &&
                          px > least_stroke_px * side;
    const bool looks_like_two_eyes = found->moved > surely &&
                                     std::abs(found->direction_deg) < like_two_eyes_deg &&
                                     (found->is_beyond || px > like_two_eyes_of_head * head_px);
    if (looks_like_two_eyes || (found->is_beyond && !is_along))
        return {.blur = CannotTell::too_blurred};
    const bool is_long_stroke = is_along && px > long_stroke_of_head * head_px;
    const double unlike =
        (is_long_stroke ? unlike_stroke_share : unlike_share) * px + unlike_px * side;
    const double from_px = std::max(0.0, px - std::hypot(px - found->from_px * side, unlike));
    const double more_px =
        like_more_detail_of_head * std::max(0.0, head_px - calibrated_head_px * side);
    const double to_px = std::hypot(px + std::hypot(found->to_px * side - px, unlike), more_px);
    const double like_px = like_little_detail_px * side;
    face.blur =
        found->is_beyond
            ? FaceBlur{CannotTell::too_blurred}
            : FaceBlur{blur_within(
                  px, std::sqrt(std::max(0.0, from_px * from_px - like_px * like_px)), to_px)};
    if (is_along) {
        face.kind = BlurKind::movement;
        face.direction_deg = found->direction_deg;
    } else if (found->moved < 1 - surely_round && found->from_px * side > least_focus_px)
        face.kind = BlurKind::focus;
    if (marks && face.kind != BlurKind::movement && shows_lids(face.blur, head_px))
        face.eyes = marks->lids_open < surely_shut   ? Eyes::shut
                    : marks->lids_open > surely_open ? Eyes::open
                                                     : Eyes::unknown;
    return face;
}

bool shows_lids(const FaceBlur& blur, double head_px) noexcept {
    constexpr double most_of_head = 0.025;
    const Blur* known = std::get_if<Blur>(&blur);
    return known != nullptr && known->px < most_of_head * head_px;
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

const char* to_word(BlurKind kind) noexcept {
    switch (kind) {
    case BlurKind::focus:
        return "focus";
    case BlurKind::movement:
        return "movement";
    case BlurKind::unknown:
        break;
    }
    return "";
}

const char* to_word(Eyes eyes) noexcept {
    switch (eyes) {
    case Eyes::open:
        return "open";
    case Eyes::shut:
        return "shut";
    case Eyes::unknown:
        break;
    }
    return "";
}

}  // namespace backrow::inspection
