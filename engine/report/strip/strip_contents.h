#pragma once

// What stands on the sheet of a strip.

#include "report/strip/strip_layout.h"
#include "report/strip/strip_sheet.h"
#include "report/strip/strip_words.h"

#include "base/image.h"

#include <optional>
#include <vector>

namespace backrow::report {

/// What was made of one frame.
struct StripMade {
    Image<Rgb8> whole{};
    Image<Rgb8> face{};                                                   ///< The worst face.
    double face_left = 0, face_top = 0, face_right = 0, face_bottom = 0;  ///< As in StripPicture.
    int samples = 0;  ///< Points of the lens, in whole.
    std::optional<double>
        measured_blur_px{};  ///< Of the worst face; none if it cannot be measured.
};

struct StripPictures {
    double face_scale = 1;          ///< strip_face_scale()
    std::vector<StripMade> made{};  ///< One for each frame.
};

struct StripReport {
    StripSubject subject;
    StripLayout layout;
    double face_scale = 1;          ///< strip_face_scale()
    std::vector<StripMade> made{};  ///< One for each frame.
};

/// Apertures stand side by side and places one under another; with a single aperture the places
/// stand side by side.
///
/// width_px  of the sheet
[[nodiscard]] StripShape strip_shape(const scene::Scene& scene, const plan::Strip& strip,
                                     int width_px);

/// The strip for strip_sheet(). Takes the pictures out of the report.
[[nodiscard]] StripSheet strip_sheet_of(StripReport& report);

}  // namespace backrow::report
