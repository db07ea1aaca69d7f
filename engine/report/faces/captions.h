#pragma once

// Who is in a picture, under it: row by row from the left, as group photographs are lettered.

#include "plan/faces/face_table.h"
#include "scene/camera_view.h"
#include "scene/scene.h"

#include "base/image.h"

#include <string>
#include <vector>

namespace backrow::report {

/// "Back row, from left: Priya, Sefu", the farthest row first; whoever is carried stands with
/// whoever carries them, and people placed alone come last. Only those whose head lies whole in the
/// picture.
///
/// faces  of everybody
[[nodiscard]] std::vector<std::string> caption_lines(const scene::Scene& scene,
                                                     const scene::CameraView& view,
                                                     const std::vector<plan::Face>& faces);

/// The picture on paper, under it the title and the lines; as wide as the picture, and higher.
[[nodiscard]] Image<Rgb8> with_captions(const Image<Rgb8>& picture, const std::string& title,
                                        const std::vector<std::string>& lines);

}  // namespace backrow::report
