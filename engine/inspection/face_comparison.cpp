#include "inspection/face_comparison.h"

#include "inspection/face_region.h"

#include "measure/added_blur.h"
#include "measure/smoothed.h"

#include "base/colour.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
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

void tell_blur(ComparedFace& face, const Blur& sharpest, const AddedBlur& added) {
    const auto square = [](double length) { return length * length; };
    const auto root = [](double area) { return std::sqrt(std::max(0.0, area)); };
    const double areas = disc_px2_from_variance * square(face.detail.pixels_a_side);
    const double disc_px2 = square(sharpest.px) + areas * added.mean_px2();
    const double error_of_added = areas * error_px2(added);
    const double below = std::hypot(square(sharpest.px) - square(sharpest.from_px), error_of_added);
    const double above = std::hypot(square(sharpest.to_px) - square(sharpest.px), error_of_added);
    face.blur = Blur{
        .px = root(disc_px2), .from_px = root(disc_px2 - below), .to_px = root(disc_px2 + above)};
}

/// Under this neither kind of blur is told from the other.
constexpr double least_kind_px2 = 0.5;

/// A disc adds alike in all directions, a stroke in its own alone.
bool is_round(const AddedBlur& added) {
    constexpr double of_focus = 0.6;
    return added.least_px2() > of_focus * added.most_px2();
}

void tell_kind(ComparedFace& face, const AddedBlur& added) {
    constexpr double of_movement = 0.25;
    if (added.mean_px2() < std::max(least_kind_px2, 3 * added.error_px2))
        return;
    if (is_round(added))
        face.kind = BlurKind::focus;
    else if (added.least_px2() < of_movement * added.most_px2()) {
        face.kind = BlurKind::movement;
        face.direction_deg = added.direction_deg();
    }
}

/// The deviation of the light round an eye, as a share of the face's mean, after so much more blur
/// and where everything is shifted by so much.
double contrast_at_eye(const Light& light, double head_px, double side, double blur_px2,
                       double right_px, double down_px) {
    const auto rounded = [](double length) { return static_cast<int>(std::lround(length)); };
    const double eye_x =
        light.within.left + light.within.width_px / 2.0 + side * half_between_eyes * head_px;
    const double eye_y = light.within.top + above_eyes * head_px;
    const PixelBox eye{rounded(eye_x + right_px - half_eye_width * head_px),
                       rounded(eye_y + down_px - half_eye_height * head_px),
                       rounded(2 * half_eye_width * head_px),
                       rounded(2 * half_eye_height * head_px)};
    const auto mean_of = [](const Image<float>& picture) {
        double sum = 0;
        for (const float one : picture.pixels())
            sum += one;
        return sum / static_cast<double>(picture.pixels().size());
    };
    Image<float> part = measure::smoothed(light.picture, eye, blur_px2, blur_px2);
    const double mean = mean_of(part);
    for (float& one : part.pixels())
        one = static_cast<float>((one - mean) * (one - mean));
    PixelBox face = light.within;
    face.left += rounded(right_px);
    face.top += rounded(down_px);
    return std::sqrt(mean_of(part)) /
           std::max(1e-6, mean_of(measure::smoothed(light.picture, face, 1, 1)));
}

/// Lids that are down hide white and iris, so there is less contrast round the eye than in another
/// frame that is as blurred. Who never opens them cannot be told from who never shuts them.
void tell_eyes(std::vector<ComparedFace>& faces, std::size_t sharpest, const Added& added) {
    constexpr double of_shut = 0.85;        // and less; alike are within a tenth
    constexpr double most_blurred = 0.025;  // deviation as a share of the head's height
    const auto mean_of = [&](std::size_t i) {
        return i == sharpest || !added[i] ? 0.0 : std::max(0.0, added[i]->mean_px2());
    };
    // Each is compared with the widest open of those before which the same blur was laid.
    std::vector<double> ratio(faces.size(), 0);
    for (std::size_t i = 0; i < faces.size(); ++i) {
        if (!added[i])
            continue;
        const PixelBox& one = faces[sharpest].detail.within;
        const PixelBox& two = faces[i].detail.within;
        const int width_px = std::min(one.width_px, two.width_px);
        const int height_px = std::min(one.height_px, two.height_px);
        const double head_px = height_px / (above_eyes + below_eyes);
        if (mean_of(i) > most_blurred * most_blurred * head_px * head_px)
            continue;
        // A stroke smears lids otherwise than the disc that would be laid on the other.
        if (mean_of(i) > least_kind_px2 && !is_round(*added[i]))
            continue;
        const Light first = light_of(faces[sharpest].detail, width_px, height_px);
        const Light second = light_of(faces[i].detail, width_px, height_px);
        const double fine_px2 = 64e-6 * head_px * head_px;
        double product = 1;
        for (const double side : {-1.0, 1.0})
            product *=
                contrast_at_eye(second, head_px, side, fine_px2, added[i]->right_px,
                                added[i]->down_px) /
                std::max(1e-9, contrast_at_eye(first, head_px, side, fine_px2 + mean_of(i), 0, 0));
        ratio[i] = std::sqrt(product);
    }
    ratio[sharpest] = 1;
    const double widest = *std::ranges::max_element(ratio);
    const bool is_any_shut =
        std::ranges::any_of(ratio, [&](double one) { return one > 0 && one < of_shut * widest; });
    for (std::size_t i = 0; is_any_shut && i < faces.size(); ++i)
        if (ratio[i] > 0)
            faces[i].eyes = ratio[i] < of_shut * widest ? Eyes::shut : Eyes::open;
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
    const Blur reference = std::get<Blur>(faces[*sharpest].blur);
    tell_eyes(faces, *sharpest, added);
    for (std::size_t i = 0; i < faces.size(); ++i)
        if (added[i]) {
            tell_blur(faces[i], reference, *added[i]);
            tell_kind(faces[i], *added[i]);
        }
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
