#pragma once

// A picture as a file to be given away: which kind, how good, with or without names under it.

#include "plan/faces/face_table.h"
#include "scene/camera_view.h"
#include "scene/scene.h"

#include "base/image.h"
#include "base/image_files.h"
#include "base/problem.h"

#include <string>
#include <vector>

namespace backrow::delivery {

/// By the ending: .jpg or .jpeg.
[[nodiscard]] bool is_jpeg(const std::string& path);

/// jpeg_quality  of a JPEG, 1 … 100
/// errors        a picture that is too long on a side for a JPEG
[[nodiscard]] Made<Bytes> picture_bytes(const Image<Rgb8>& picture, bool as_jpeg, int jpeg_quality);

/// With the scene's title and who is in the picture under it.
[[nodiscard]] Image<Rgb8> with_captions(const Image<Rgb8>& picture, const scene::Scene& scene,
                                        const scene::CameraView& view,
                                        const std::vector<plan::Face>& faces);

}  // namespace backrow::delivery
