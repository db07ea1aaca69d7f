#include "inspection/face_comparison.h"

#include "inspection/face_region.h"

#include "measure/added_blur.h"
#include "measure/smoothed.h"

#include "base/colour.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <optional>

namespace backrow::inspection {
namespace {

using measure::AddedBlur;
using measure::PixelBox;

/// Larger heads tell no more, and a folder of frames must fit into memory.
constexpr int most_kept_head_px = 512;

/// The variance of a disc along either axis is a sixteenth of the square of its diameter.
constexpr double disc_px2_from_variance = 16;

/// What the regression's own error does not know of, twice its deviation: as a share of the
/// variance that was added and in square pixels. Depth within a face, for the most part.
constexpr double added_error_share = 0.2;
constexpr double added_error_px2 = 0.05;

struct Light {
    Image<float> picture;
    PixelBox within{};
};

Light light_of(const FaceDetail& detail, int width_px, int height_px) {
    Light light{Image<float>(width_px * 2, height_px * 2),
                {width_px / 2, height_px / 2, width_px, height_px}};
    const int left = detail.within.left + (detail.within.width_px - width_px) / 2 - width_px / 2;
    const int top = detail.within.top + (detail.within.height_px - height_px) / 2 - height_px / 2;
    for (int y = 0; y < light.picture.height_px(); ++y)
        for (int x = 0; x < light.picture.width_px(); ++x)
            light.picture.at(x, y) = linear_from_srgb(
                detail.shown.at(std::clamp(left + x, 0, detail.shown.width_px() - 1),
                                std::clamp(top + y, 0, detail.shown.height_px() - 1)) /
                255.0f);
    return light;
}

bool is_usable(const ComparedFace& face) {
    return !face.detail.shown.empty();
}

std::optional<AddedBlur> added_to(const ComparedFace& sharper, const ComparedFace& other) {
    if (sharper.detail.pixels_a_side != other.detail.pixels_a_side)
        return std::nullopt;
    const int width_px = std::min(sharper.detail.within.width_px, other.detail.within.width_px);
    const int height_px = std::min(sharper.detail.within.height_px, other.detail.within.height_px);
    const Light first = light_of(sharper.detail, width_px, height_px);
    const Light second = light_of(other.detail, width_px, height_px);
    auto added = measure::added_blur(first.picture, second.picture, first.within);
    // Another pose, another light, somebody else: the comparison would not tell of blur.
    constexpr double most_unlike = 0.1;
    return added && added->unlike <= most_unlike ? added : std::nullopt;
}

double error_px2(const AddedBlur& added) {
    return std::hypot(2 * added.error_px2, added_error_share * added.mean_px2(), added_error_px2);
}

using Added = std::vector<std::optional<AddedBlur>>;

Added added_to_all(const std::vector<ComparedFace>& faces, std::size_t sharpest) {
    Added added(faces.size());
    for (std::size_t i = 0; i < faces.size(); ++i)
        if (i != sharpest && is_usable(faces[i]))
            added[i] = added_to(faces[sharpest], faces[i]);
    return added;
}

/// Whose blur is least as it seems alone.
std::optional<std::size_t> seemingly_sharpest(const std::vector<ComparedFace>& faces) {
    std::optional<std::size_t> sharpest;
    for (std::size_t i = 0; i < faces.size(); ++i) {
        const Blur* blur = std::get_if<Blur>(&faces[i].blur);
        if (blur == nullptr || !is_usable(faces[i]))
            continue;
        if (!sharpest || blur->px < std::get<Blur>(faces[*sharpest].blur).px)
            sharpest = i;
    }
    return sharpest;
}

/// A face from which others are less blurred is no measure for them.
std::optional<std::size_t> less_blurred(const std::vector<ComparedFace>& faces,
                                        const Added& added) {
    std::optional<std::size_t> least;
    for (std::size_t i = 0; i < added.size(); ++i)
        if (added[i] && std::holds_alternative<Blur>(faces[i].blur) &&
            added[i]->mean_px2() < (least ? added[*least]->mean_px2() : 0.0))
            least = i;
    return least;
}

/// Two witnesses weighed by how sure they are; where they disagree, all that either says.
Blur both(const Blur& one, const Blur& other) {
    if (one.from_px > other.to_px || other.from_px > one.to_px)
        return {.px = one.px,
                .from_px = std::min(one.from_px, other.from_px),
                .to_px = std::max(one.to_px, other.to_px)};
    const double width_px = std::max(0.05, one.to_px - one.from_px);
    const double other_width_px = std::max(0.05, other.to_px - other.from_px);
    const double weight = 1 / (width_px * width_px);
    const double other_weight = 1 / (other_width_px * other_width_px);
    const double px = (weight * one.px + other_weight * other.px) / (weight + other_weight);
    const double half_px = std::min(width_px, other_width_px) / 2;
    return blur_within(px, std::max(0.0, px - half_px), px + half_px);
}

/// The sharpest's own blur, by what every frame that is nearly as sharp tells of itself, less what
/// was added to it. Half of what one may be wrong by is the person's, the same in all frames.
Blur told_by_all(const std::vector<ComparedFace>& faces, std::size_t sharpest, const Added& added) {
    constexpr double nearly_px2 = 4;
    constexpr double of_person = 0.5;
    double sum = 0;
    double weights = 0;
    double narrowest_px2 = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < faces.size(); ++i) {
        const Blur* blur = std::get_if<Blur>(&faces[i].blur);
        if (blur == nullptr || (i != sharpest && !added[i]))
            continue;
        const double added_px2 = i == sharpest
                                     ? 0
                                     : disc_px2_from_variance * faces[i].detail.pixels_a_side *
                                           faces[i].detail.pixels_a_side * added[i]->mean_px2();
        if (std::abs(added_px2) > nearly_px2)
            continue;
        const double half_px2 = std::max({0.1, blur->to_px * blur->to_px - blur->px * blur->px,
                                          blur->px * blur->px - blur->from_px * blur->from_px});
        const double weight = 1 / (half_px2 * half_px2);
        sum += weight * std::max(0.0, blur->px * blur->px - added_px2);
        weights += weight;
        narrowest_px2 = std::min(narrowest_px2, half_px2);
    }
    const double half_px2 =
        std::sqrt(of_person * narrowest_px2 * narrowest_px2 + (1 - of_person) / weights);
    const double px2 = sum / weights;
    return blur_within(std::sqrt(px2), std::sqrt(std::max(0.0, px2 - half_px2)),
                       std::sqrt(px2 + half_px2));
}

void tell_blur(ComparedFace& face, const Blur& sharpest, const AddedBlur& added) {
    const auto square = [](double length) { return length * length; };
    const auto root = [](double area) { return std::sqrt(std::max(0.0, area)); };
    const double areas = disc_px2_from_variance * square(face.detail.pixels_a_side);
    const double disc_px2 = square(sharpest.px) + areas * added.mean_px2();
    const double error_of_added = areas * error_px2(added);
    const double below = std::hypot(square(sharpest.px) - square(sharpest.from_px), error_of_added);
    const double above = std::hypot(square(sharpest.to_px) - square(sharpest.px), error_of_added);
    const Blur by_comparing =
        blur_within(root(disc_px2), root(disc_px2 - below), root(disc_px2 + above));
    const Blur* alone = std::get_if<Blur>(&face.blur);
    face.blur = alone != nullptr ? both(by_comparing, *alone) : by_comparing;
}

/// Under this neither kind of blur is told from the other.
constexpr double least_kind_px2 = 0.5;

/// A disc adds alike in all directions, a stroke in its own alone.
bool is_round(const AddedBlur& added) {
    constexpr double of_focus = 0.6;
    return added.least_px2() > of_focus * added.most_px2();
}

BlurKind kind_of(const AddedBlur& added) {
    constexpr double of_movement = 0.25;
    if (added.mean_px2() < std::max(least_kind_px2, 3 * added.error_px2))
        return BlurKind::unknown;
    if (is_round(added))
        return BlurKind::focus;
    return added.least_px2() < of_movement * added.most_px2() ? BlurKind::movement
                                                              : BlurKind::unknown;
}

/// What a face tells by itself and what is added to the sharpest are two witnesses: one is enough,
/// two must agree.
void tell_kind(ComparedFace& face, const AddedBlur& added) {
    const BlurKind by_comparing = kind_of(added);
    if (by_comparing == BlurKind::unknown)
        return;
    if (face.kind == BlurKind::unknown) {
        face.kind = by_comparing;
        face.direction_deg = added.direction_deg();
    } else if (face.kind != by_comparing)
        face.kind = BlurKind::unknown;
}

/// Lids that are not so far apart as this person's are elsewhere, or as far.
void tell_eyes(std::vector<ComparedFace>& faces) {
    constexpr double half_shut = 0.26;
    constexpr double of_shut = 0.75;
    constexpr double of_open = 0.9;
    const auto is_seen = [](const ComparedFace& face) {
        return face.lids_open && face.kind != BlurKind::movement &&
               shows_lids(face.blur, face.head_px);
    };
    double widest = 0;
    for (const ComparedFace& face : faces)
        if (is_seen(face))
            widest = std::max(widest, *face.lids_open);
    if (widest < surely_open)
        return;
    const auto is_shut = [&](const ComparedFace& face) {
        return *face.lids_open < std::min(half_shut, of_shut * widest);
    };
    for (ComparedFace& face : faces)
        if (is_seen(face))
            face.eyes = is_shut(face)                        ? Eyes::shut
                        : *face.lids_open > of_open * widest ? Eyes::open
                                                             : face.eyes;
}

}  // namespace

FaceDetail face_detail(const Image<Rgb8>& shown, const PixelBox& head) {
    if (hindrance(shown, head))
        return {};
    const PixelBox inner = eyes_and_mouth(head);
    const int side = (head.height_px + most_kept_head_px - 1) / most_kept_head_px;
    const int beside_px = inner.height_px / 2;
    const PixelBox outer = widened(inner, beside_px);
    FaceDetail detail{.shown = Image<std::uint8_t>(outer.width_px / side, outer.height_px / side),
                      .within = {beside_px / side, beside_px / side, inner.width_px / side,
                                 inner.height_px / side},
                      .pixels_a_side = side};
    const Image<float> part = brightness_of(shown, outer);
    for (int y = 0; y < detail.shown.height_px(); ++y)
        for (int x = 0; x < detail.shown.width_px(); ++x) {
            float sum = 0;
            for (int j = 0; j < side; ++j)
                for (int i = 0; i < side; ++i)
                    sum += part.at(x * side + i, y * side + j);
            detail.shown.at(x, y) =
                static_cast<std::uint8_t>(std::lround(255 * sum / static_cast<float>(side * side)));
        }
    return detail;
}

void compare(std::vector<ComparedFace>& faces) {
    tell_eyes(faces);
    std::optional<std::size_t> sharpest = seemingly_sharpest(faces);
    if (!sharpest)
        return;
    Added added = added_to_all(faces, *sharpest);
    // Which of two that are nearly alike is sharper need not be told alike from both.
    constexpr int rounds = 3;
    for (int round = 0; round < rounds; ++round) {
        const auto sharper = less_blurred(faces, added);
        if (!sharper)
            break;
        sharpest = sharper;
        added = added_to_all(faces, *sharpest);
    }
    const Blur reference = told_by_all(faces, *sharpest, added);
    for (std::size_t i = 0; i < faces.size(); ++i)
        if (added[i]) {
            tell_blur(faces[i], reference, *added[i]);
            tell_kind(faces[i], *added[i]);
        }
    faces[*sharpest].blur = reference;
}

}  // namespace backrow::inspection
