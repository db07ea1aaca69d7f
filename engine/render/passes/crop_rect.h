#pragma once

// Which part of the camera's picture is rendered, and how finely.

#include "scene/camera_view.h"

#include "base/units.h"

namespace backrow::render {

/// A rectangle of the camera's picture, in camera pixels from its top-left corner; it may reach
/// outside. Rendered into width_texels × height_texels.
struct CropRect {
    double left_px = 0;
    double top_px = 0;
    double width_px = 0;
    double height_px = 0;
    int width_texels = 0;
    int height_texels = 0;

    friend bool operator==(const CropRect&, const CropRect&) = default;
};

/// How high a picture of this width is, in the shape of the camera's; at least 1.
[[nodiscard]] int height_for_width(const scene::CameraView& view, int width_texels);

/// How long the long side of a picture is unless somebody asks for another width.
inline constexpr int usual_long_side_texels = 1920;
/// How wide such a picture is.
[[nodiscard]] int usual_width_texels(const scene::CameraView& view);

/// The whole picture so wide, in the shape of the camera's.
[[nodiscard]] CropRect whole_frame(const scene::CameraView& view, int width_texels);
/// The whole picture at this size.
[[nodiscard]] CropRect whole_frame(const scene::CameraView& view, int width_texels,
                                   int height_texels);

/// The part of a crop from texel (left, top) on, width × height texels large.
[[nodiscard]] CropRect part_of(const CropRect& crop, int left_texels, int top_texels,
                               int width_texels, int height_texels);

[[nodiscard]] inline Texels texels_from_camera(CameraPixels length, const CropRect& crop) {
    return {length.value * crop.width_texels / crop.width_px};
}
[[nodiscard]] inline CameraPixels camera_from_texels(Texels length, const CropRect& crop) {
    return {length.value * crop.width_px / crop.width_texels};
}

}  // namespace backrow::render
