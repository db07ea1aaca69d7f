#include "plan/advice/advice_framing.h"

#include "plan/advice/advice_focus.h"
#include "plan/faces/head_in_picture.h"

#include "base/units.h"

#include <glm/geometric.hpp>

#include <algorithm>
#include <cmath>

namespace backrow::plan {
namespace {

/// How far, at most, the axis swings when an aim at the group follows the moves, radians. The
/// middle of the box round everybody goes no further than anybody does.
double swing_rad(const Viewpoint& at, double most_m) {
    const double along = axial_per_back(at);
    const double across = std::sqrt(std::max(0.0, 1 - along * along));
    const double range_m = glm::length(at.view.look_at_m - at.view.position_m) - most_m;
    return range_m > 0 ? most_m * across / range_m : INFINITY;
}

/// A point as tangents from the axis.
glm::dvec2 tangents(const scene::CameraView& view, const glm::dvec3& from_lens_m, double axial_m) {
    return glm::dvec2{glm::dot(from_lens_m, view.right), glm::dot(from_lens_m, view.up)} / axial_m;
}

}  // namespace

// As somebody walks straight back, both tangents of a point are ratios of two linear functions and
// so grow or shrink all the way: a point that is outside the same edge at both ends of the walk is
// outside all along it. The edges are those with the focus at infinity, where v = f and the frame
// is widest; a swing of the axis by δ shifts a tangent by no more than 2 δ (1 + tan²).
bool can_stay_framed(const Viewpoint& at, const FaceTable& now, int most_cm) {
    const scene::CameraView& view = at.view;
    const glm::dvec2 half =
        glm::dvec2{view.sensor_width_mm, view.sensor_height_mm} / (2 * view.lens.focal_length_mm);
    const double most_m = m_from_cm(most_cm);
    const glm::dvec2 edge = half + 2 * swing_rad(at, most_m) * (1 + glm::dot(half, half));
    const auto lost = [&](const glm::dvec3& point_m) {
        const glm::dvec3 step_m{0, 0, -most_m};
        const glm::dvec3 from_lens_m = point_m - view.position_m;
        const double near_m = glm::dot(from_lens_m - step_m, view.forward);
        const double far_m = glm::dot(from_lens_m + step_m, view.forward);
        if (!(near_m > 0 && far_m > 0))
            return false;
        const glm::dvec2 a = tangents(view, from_lens_m - step_m, near_m);
        const glm::dvec2 b = tangents(view, from_lens_m + step_m, far_m);
        return std::min(a.x, b.x) > edge.x || std::max(a.x, b.x) < -edge.x ||
               std::min(a.y, b.y) > edge.y || std::max(a.y, b.y) < -edge.y;
    };
    for (std::size_t i = 0; i < now.faces.size(); ++i)
        if (now.faces[i].cropping.has_whole_head &&
            std::ranges::any_of(head_outline_m(scene::reference_points(at.scene.people[i])), lost))
            return false;
    return true;
}

}  // namespace backrow::plan
