#include "plan/faces/head_in_picture.h"

#include <glm/geometric.hpp>

#include <algorithm>

namespace backrow::plan {
namespace {

bool in_picture(const scene::CameraView& view, const scene::Seen& seen) {
    return seen.axial_m > 0 && seen.at_px.x >= 0 && seen.at_px.x <= view.width_px &&
           seen.at_px.y >= 0 && seen.at_px.y <= view.height_px;
}

/// From chin to crown, camera pixels.
glm::dvec2 face_px(const scene::CameraView& view, const figures::ReferencePoints& points) {
    const scene::Seen chin = project(view, points.chin_m);
    const scene::Seen crown = project(view, points.crown_m);
    return chin.axial_m > 0 && crown.axial_m > 0 ? crown.at_px - chin.at_px : glm::dvec2{0};
}

}  // namespace

std::array<glm::dvec3, 6> head_outline_m(const figures::ReferencePoints& points) {
    return {points.chin_m,      points.crown_m,    points.left_ear_m,
            points.right_ear_m, points.left_eye_m, points.right_eye_m};
}

bool whole_head_in_picture(const scene::CameraView& view, const figures::ReferencePoints& points) {
    return std::ranges::all_of(head_outline_m(points), [&](const glm::dvec3& point_m) {
        return in_picture(view, project(view, point_m));
    });
}

double face_height_px(const scene::CameraView& view, const figures::ReferencePoints& points) {
    return glm::length(face_px(view, points));
}

double face_height_mm(const scene::CameraView& view, const figures::ReferencePoints& points) {
    // Across and up apart, for pixels need not be square.
    const glm::dvec2 pitch_mm{view.sensor_width_mm / view.width_px,
                              view.sensor_height_mm / view.height_px};
    return glm::length(face_px(view, points) * pitch_mm);
}

}  // namespace backrow::plan
