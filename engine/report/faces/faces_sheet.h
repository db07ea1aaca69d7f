#pragma once

// Everybody's face at 100 % on one sheet: every pixel of the camera is one pixel of the sheet.

#include "plan/faces/verdict.h"
#include "report/drawing/sheet_limits.h"

#include "base/image.h"

#include <optional>
#include <string>
#include <vector>

namespace backrow::report {

/// One face cut out of the picture at full size. An empty picture: the face is outside.
struct FacePicture {
    Image<Rgb8> pixels;
    std::string name;
    std::optional<double> predicted_blur_px{};  ///< Nothing for a frame that was taken.
    std::optional<double> measured_blur_px;
    std::optional<plan::Verdict> verdict = plan::Verdict::crisp;  ///< Nothing: cannot be told.
    std::string trouble{};   ///< Who hides it, where the head is cut, or why nothing can be told.
    Image<Rgb8> enlarged{};  ///< A part of it that is drawn under it, larger; or empty.
};

inline constexpr const char* sheet_scale_note = "100 %: one pixel here is one pixel of the camera";

/// The faces in their order, in columns, never scaled here; name, blur and verdict under each.
/// Whoever stands before a hidden face is set back, for it is not the face whose name it has. Faces
/// that do not fit within the limits of a sheet are left out, and the sheet says how many.
///
/// title    the scene's, at the top
/// note     at the foot
/// returns  sRGB; the same faces give the same pixels
[[nodiscard]] Image<Rgb8> faces_sheet(const std::vector<FacePicture>& faces,
                                      const std::string& title,
                                      const std::string& note = sheet_scale_note);

}  // namespace backrow::report
