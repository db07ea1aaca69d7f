#include "render/faces/face_crop.h"

#include "render/driver/view_uniforms.h"

#include <glm/common.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace backrow::render {
namespace {

/// Where a stretch of this length begins that has a point in its middle, moved into 0 … end where
/// it fits there.
double begin_round(double middle, double length, double end) {
    const double begin = std::floor(middle - length / 2);
    return length < end ? std::clamp(begin, 0.0, std::floor(end - length)) : (end - length) / 2;
}

}  // namespace

std::optional<CropRect> face_crop(const scene::CameraView& view, const scene::Person& person,
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
    return CropRect{.left_px = left,
                    .top_px = top,
                    .width_px = width,
                    .height_px = height,
                    .width_texels = static_cast<int>(std::min(width, 1e6)),
                    .height_texels = static_cast<int>(std::min(height, 1e6))};
}

std::optional<CropRect> face_detail(const scene::CameraView& view, const scene::Person& person,
                                    int width_texels, int height_texels, double texels_per_px) {
    const auto face = face_crop(view, person, 0);
    if (!face)
        return std::nullopt;
    const double width_px = width_texels / texels_per_px;
    const double height_px = height_texels / texels_per_px;
    return CropRect{
        .left_px = begin_round(face->left_px + face->width_px / 2, width_px, view.width_px),
        .top_px = begin_round(face->top_px + face->height_px / 2, height_px, view.height_px),
        .width_px = width_px,
        .height_px = height_px,
        .width_texels = width_texels,
        .height_texels = height_texels};
}

std::optional<CropRect> eyes_crop(const scene::CameraView& view, const scene::Person& person,
                                  int width_texels, int height_texels) {
    const figures::ReferencePoints points = reference_points(person);
    const scene::Seen left = project(view, points.left_eye_m);
    const scene::Seen right = project(view, points.right_eye_m);
    const scene::Seen& nearer = left.axial_m < right.axial_m ? left : right;
    if (nearer.axial_m <= nearest_drawn_m)
        return std::nullopt;
    const glm::dvec2 apart_px = glm::abs(left.at_px - right.at_px);
    const bool both_fit = apart_px.x < 0.75 * width_texels && apart_px.y < 0.75 * height_texels;
    const glm::dvec2 middle = both_fit ? (left.at_px + right.at_px) * 0.5 : nearer.at_px;
    // Half the face lies above the eyes and more than half below them: the tile a little lower.
    constexpr double below = 0.06;
    return CropRect{.left_px = std::floor(middle.x - width_texels / 2.0),
                    .top_px = std::floor(middle.y - height_texels * (0.5 - below)),
                    .width_px = static_cast<double>(width_texels),
                    .height_px = static_cast<double>(height_texels),
                    .width_texels = width_texels,
                    .height_texels = height_texels};
}

}  // namespace backrow::render
