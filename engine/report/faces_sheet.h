#pragma once

// Everybody's face at 100 % on one sheet: every pixel of the camera is one pixel of the sheet.

#include "optics/viewing.h"

#include "base/image.h"

#include <optional>
#include <string>
#include <vector>

namespace backrow::report {

/// One face cut out of the picture at full size. An empty picture: the face is outside.
struct FacePicture {
    Image<Rgb8> pixels;
    std::string name;
    double predicted_blur_px = 0;
    std::optional<double> measured_blur_px;
    optics::Grade grade = optics::Grade::crisp;
    bool in_frame = true;
};

/// No side of a sheet is longer, and no sheet has more pixels: faces that do not fit are left out,
/// and the sheet says how many.
inline constexpr int longest_sheet_side_px = 16000;
inline constexpr long most_sheet_pixels = 100'000'000;

/// The faces in their order, in columns, never scaled; name, blur and grade under each.
///
/// title    the scene's, at the top
/// returns  sRGB; the same faces give the same pixels
[[nodiscard]] Image<Rgb8> faces_sheet(const std::vector<FacePicture>& faces,
                                      const std::string& title);

}  // namespace backrow::report
