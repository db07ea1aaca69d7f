#include "render/face_window.h"

#include "render/view_uniforms.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace backrow::render {

std::optional<FrameWindow> face_window(const scene::CameraView& view, const scene::Person& person,
                                       double margin) {
    const figures::ReferencePoints points = reference_points(person);
    double left = std::numeric_limits<double>::infinity();
    double top = left;
    double right = -left;
    double bottom = -left;
    for (const glm::dvec3& point :
         std::array{points.chin_m, points.crown_m, points.left_ear_m, points.right_ear_m,
                    points.nose_tip_m, points.left_eye_m, points.right_eye_m}) {
        const scene::Seen seen = project(view, point);
        if (seen.axial_m <= nearest_drawn_m)
            return std::nullopt;
        left = std::min(left, seen.at_px.x);
        right = std::max(right, seen.at_px.x);
        top = std::min(top, seen.at_px.y);
        bottom = std::max(bottom, seen.at_px.y);
    }
    const double spare = margin * (bottom - top);
    left = std::floor(left - spare);
    top = std::floor(top - spare);
    const double width = std::max(1.0, std::ceil(right + spare) - left);
    const double height = std::max(1.0, std::ceil(bottom + spare) - top);
    return FrameWindow{.left_px = left,
                       .top_px = top,
                       .width_px = width,
                       .height_px = height,
                       .width_texels = static_cast<int>(std::min(width, 1e6)),
                       .height_texels = static_cast<int>(std::min(height, 1e6))};
}

}  // namespace backrow::render
