#pragma once

// Where in a head its eyes are, and how wide their lids are open, by Debian's dlib and its model of
// 68 marks of a face, where the program was built with the one and finds the other.

#include "measure/pixel_box.h"

#include "base/image.h"

#include <optional>

namespace backrow::inspection {

struct FaceMarks {
    double eyes_x_px = 0;  ///< Midway between both eyes.
    double eyes_y_px = 0;
    double lids_open = 0;  ///< How far apart lids are, as a share of the eye's width; both eyes'.
};

/// head  chin to crown and ear to ear; it may reach beyond the picture
[[nodiscard]] std::optional<FaceMarks> face_marks(const Image<Rgb8>& shown,
                                                  const measure::PixelBox& head);

}  // namespace backrow::inspection
