#include "render/passes/crop_rect.h"

#include <algorithm>
#include <cmath>

namespace backrow::render {

int height_for_width(const scene::CameraView& view, int width_texels) {
    return std::max(1, static_cast<int>(std::lround(static_cast<double>(width_texels) *
                                                    view.height_px / view.width_px)));
}

int usual_width_texels(const scene::CameraView& view) {
    const int longest_px = std::max(view.width_px, view.height_px);
    return std::max(1, static_cast<int>(std::lround(static_cast<double>(usual_long_side_texels) *
                                                    view.width_px / longest_px)));
}

CropRect whole_frame(const scene::CameraView& view, int width_texels) {
    return whole_frame(view, width_texels, height_for_width(view, width_texels));
}

CropRect whole_frame(const scene::CameraView& view, int width_texels, int height_texels) {
    return {.left_px = 0,
            .top_px = 0,
            .width_px = static_cast<double>(view.width_px),
            .height_px = static_cast<double>(view.height_px),
            .width_texels = width_texels,
            .height_texels = height_texels};
}

CropRect part_of(const CropRect& crop, int left_texels, int top_texels, int width_texels,
                 int height_texels) {
    const double px_per_texel_x = crop.width_px / crop.width_texels;
    const double px_per_texel_y = crop.height_px / crop.height_texels;
    return {.left_px = crop.left_px + left_texels * px_per_texel_x,
            .top_px = crop.top_px + top_texels * px_per_texel_y,
            .width_px = width_texels * px_per_texel_x,
            .height_px = height_texels * px_per_texel_y,
            .width_texels = width_texels,
            .height_texels = height_texels};
}

}  // namespace backrow::render
