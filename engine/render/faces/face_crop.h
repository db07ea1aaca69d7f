#pragma once

// The part of the picture round somebody's face.

#include "render/passes/crop_rect.h"

#include "scene/camera_view.h"

#include <optional>

namespace backrow::render {

/// Chin to crown and ear to ear with a margin (a share of the head's height) on every side, at one
/// texel a camera pixel, on whole pixels, whether or not it lies inside the frame. Nothing where
/// the face lies behind the lens.
[[nodiscard]] std::optional<CropRect> face_crop(const scene::CameraView& view,
                                                const scene::Person& person, double margin);

/// The part of the picture that fills so many texels at this scale, with the face's crop in its
/// middle, or as near to it as keeps the part within the frame; on whole pixels. Nothing where the
/// face lies behind the lens.
///
/// texels_per_px  the same across and up; the part is at most as wide as the frame
[[nodiscard]] std::optional<CropRect> face_detail(const scene::CameraView& view,
                                                  const scene::Person& person, int width_texels,
                                                  int height_texels, double texels_per_px);

/// So much of the picture at one texel a camera pixel: round the middle of both eyes where both fit
/// into the middle three quarters, else round the nearer one; on whole pixels, whether or not it
/// lies inside the frame. Nothing where the face lies behind the lens.
[[nodiscard]] std::optional<CropRect> eyes_crop(const scene::CameraView& view,
                                                const scene::Person& person, int width_texels,
                                                int height_texels);

}  // namespace backrow::render
