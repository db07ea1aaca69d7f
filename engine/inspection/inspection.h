#pragma once

// Frames of one group compared: whose face is how sharp in which, the best frame, and whose head
// from another would mend it.

#include "inspection/face_comparison.h"

#include "measure/pixel_box.h"
#include "optics/blur/viewing.h"

#include "base/image.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace backrow::inspection {

/// Somebody in a frame.
struct FrameFace : FaceSharpness {
    std::string person{};  ///< By number, from left to right, where nobody has said a name.
    measure::PixelBox head{};
    FaceDetail detail{};                ///< Until it has been compared.
    std::optional<double> lids_open{};  ///< As a share of the eye's width.
    optics::JudgedBlur judged{};  ///< As the picture will be looked at, where the blur is known.
    optics::Grade grade = optics::Grade::lost;
    optics::Grade best_grade = optics::Grade::lost;   ///< By the least that the blur may be …
    optics::Grade worst_grade = optics::Grade::lost;  ///< … and by the most.
    std::vector<std::size_t> sharper_in{};  ///< Frames in which this person surely is sharper.

    /// Whether the grade holds: the blur is told, or all that it may be has the same grade.
    [[nodiscard]] bool is_graded() const noexcept;
};

struct Frame {
    std::string image;
    int width_px = 0;
    int height_px = 0;
    std::vector<FrameFace> faces{};  ///< The least sharp first, too blurred ones before all; of
                                     ///< whom nothing can be told, last.
};

/// A head that surely is better in another frame.
struct Swap {
    std::string person;
    std::size_t frame = 0;
};

struct Inspection {
    std::vector<Frame> frames;
    /// In which the worst face is best, the least sharp or one with its eyes shut, which counts as
    /// lost; frames in which fewer can be told come later.
    std::optional<std::size_t> best{};
    std::vector<Swap> swaps{};  ///< For the best frame.
};

/// How the picture is looked at; nothing: pixel by pixel.
using Viewing = std::optional<optics::PrintViewing>;

/// Blurs of these heads, each by itself. names: as many, or none, where they are not known.
[[nodiscard]] Frame inspect_frame(const std::string& image, const Image<Rgb8>& shown,
                                  const std::vector<measure::PixelBox>& heads,
                                  const std::vector<std::string>& names);

/// People without names are told by where they are: those of the frame with the most of them get
/// numbers from left to right, and whoever stands within a head of them elsewhere is the same.
[[nodiscard]] Inspection compared(std::vector<Frame> frames, const Viewing& viewing);

}  // namespace backrow::inspection
