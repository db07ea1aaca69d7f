#pragma once

// Everybody's face at 100 % on one sheet: every pixel of the camera is one pixel of the sheet.

#include "report/drawing/sheet_limits.h"

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

/// The faces in their order, in columns, never scaled; name, blur and grade under each. Faces that
/// do not fit within the limits of a sheet are left out, and the sheet says how many.
///
/// title    the scene's, at the top
/// returns  sRGB; the same faces give the same pixels
[[nodiscard]] Image<Rgb8> faces_sheet(const std::vector<FacePicture>& faces,
                                      const std::string& title);

}  // namespace backrow::report
