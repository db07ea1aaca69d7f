#include "render/passes/frame_window.h"

#include <algorithm>
#include <cmath>

namespace backrow::render {

int height_for_width(const scene::CameraView& view, int width_texels) {
    return std::max(1, static_cast<int>(std::lround(static_cast<double>(width_texels) *
                                                    view.height_px / view.width_px)));
}

FrameWindow whole_frame(const scene::CameraView& view, int width_texels, int height_texels) {
    return {.left_px = 0,
            .top_px = 0,
            .width_px = static_cast<double>(view.width_px),
            .height_px = static_cast<double>(view.height_px),
            .width_texels = width_texels,
            .height_texels = height_texels};
}

FrameWindow part_of(const FrameWindow& window, int left_texels, int top_texels, int width_texels,
                    int height_texels) {
    const double px_per_texel_x = window.width_px / window.width_texels;
    const double px_per_texel_y = window.height_px / window.height_texels;
    return {.left_px = window.left_px + left_texels * px_per_texel_x,
            .top_px = window.top_px + top_texels * px_per_texel_y,
            .width_px = width_texels * px_per_texel_x,
            .height_px = height_texels * px_per_texel_y,
            .width_texels = width_texels,
            .height_texels = height_texels};
}

}  // namespace backrow::render
