#pragma once

// How sharp a face is in a frame that was taken.

#include "inspection/face_marks.h"

#include "measure/pixel_box.h"

#include "base/image.h"

#include <optional>
#include <variant>

namespace backrow::inspection {

/// Why nothing is claimed of a face.
enum class CannotTell {
    too_small,    ///< The head is lower than least_head_px.
    outside,      ///< Eyes and mouth are not all in the picture.
    burnt_out,    ///< A quarter of it is black or white without detail.
    flat,         ///< No detail above the noise.
    too_blurred,  ///< Over about a tenth of the head, or as two eyes look that are one.
};

inline constexpr int least_head_px = 48;

/// The diameter of the disc that blurs as much, and where it lies in nine of ten cases.
struct Blur {
    double px = 0;
    double from_px = 0;
    double to_px = 0;

    /// 15 % or half a pixel.
    [[nodiscard]] static double near_px(double px) noexcept;
    /// Whether it is known to that, which on rendered faces was so in 95 % of those; else it is a
    /// rough estimate.
    [[nodiscard]] bool is_told() const noexcept;
};

/// Where it is told, all of its range is near; from none where it may be under half a pixel.
[[nodiscard]] Blur blur_within(double px, double from_px, double to_px) noexcept;

/// Whether each lies outside the other's range; of two that are both under half a pixel nothing
/// finer can be told. An order without loops.
[[nodiscard]] bool surely_sharper(const Blur& one, const Blur& other) noexcept;

/// A blur, or why there is none.
using FaceBlur = std::variant<Blur, CannotTell>;

/// What keeps this face from being looked at at all: its size, its place, its light.
///
/// head  chin to crown and ear to ear
[[nodiscard]] std::optional<CannotTell> hindrance(const Image<Rgb8>& shown,
                                                  const measure::PixelBox& head);

/// What it was that blurred a face.
enum class BlurKind { unknown, focus, movement };
enum class Eyes { unknown, open, shut };

/// What one face tells by itself.
struct FaceSharpness {
    FaceBlur blur = CannotTell::flat;
    BlurKind kind = BlurKind::unknown;
    double direction_deg = 0;  ///< Of a movement, anticlockwise from the right, −90 … 90.
    Eyes eyes = Eyes::unknown;
};

/// Blur, and whether it runs in one direction, by how detail fades in each; lids by the marks.
///
/// marks  nothing where they are not known: then eyes are where they usually are in a head
/// noise_variance  of a pixel of the frame, as shown
[[nodiscard]] FaceSharpness face_sharpness(const Image<Rgb8>& shown, const measure::PixelBox& head,
                                           const std::optional<FaceMarks>& marks,
                                           double noise_variance);

/// Whether lids can be told from each other at such a blur.
[[nodiscard]] bool shows_lids(const FaceBlur& blur, double head_px) noexcept;

/// Lids that are no farther apart are shut for certain, and those that are farther, open.
inline constexpr double surely_shut = 0.20;
inline constexpr double surely_open = 0.28;

/// "too small", "outside", "burnt out", "flat", "too blurred".
[[nodiscard]] const char* to_word(CannotTell why) noexcept;
/// "focus", "movement"; "open", "shut"; nothing for what is unknown.
[[nodiscard]] const char* to_word(BlurKind kind) noexcept;
[[nodiscard]] const char* to_word(Eyes eyes) noexcept;

}  // namespace backrow::inspection
