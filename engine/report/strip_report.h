#pragma once

// A strip in words: as the sheet, as text to read, JSON and CSV to work on.

#include "plan/strip.h"
#include "report/strip_layout.h"
#include "report/strip_sheet.h"
#include "scene/scene.h"

#include "base/image.h"

#include <optional>
#include <string>
#include <vector>

namespace backrow::report {

/// What the places of a strip were told by.
enum class PlacesBy { distance, focal_length };

/// What was made of one frame.
struct StripMade {
    Image<Rgb8> whole{};
    Image<Rgb8> face{};                                                   ///< The worst face.
    double face_left = 0, face_top = 0, face_right = 0, face_bottom = 0;  ///< As in StripPicture.
    int samples = 0;  ///< Points of the lens, in whole.
    std::optional<double>
        measured_blur_px{};  ///< Of the worst face; none if it cannot be measured.
};

struct StripReport {
    scene::Scene scene;
    plan::Strip strip;  ///< Somebody's face lies whole in every frame.
    PlacesBy places_by = PlacesBy::distance;
    bool framing_kept = false;  ///< Heads as large in every frame as the scene has them.
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

/// What stays the same, then one line a frame. Ends with a line break.
[[nodiscard]] std::string strip_text(const StripReport& report);

/// One JSON object with the documented keys in their documented order. null stands for arc minutes
/// where pixels are judged, and for a blur that could not be measured. Ends with a line break.
[[nodiscard]] std::string strip_json(const StripReport& report);

/// A heading and one record a frame.
[[nodiscard]] std::string strip_csv(const StripReport& report);

}  // namespace backrow::report
