#include "plan/faces/stretch.h"

#include <glm/geometric.hpp>

#include <cmath>
#include <limits>

namespace backrow::plan {
namespace {

glm::dvec3 middle_of_head_m(const figures::ReferencePoints& points) {
    return 0.5 * (points.left_ear_m + points.right_ear_m);
}

}  // namespace

double stretch_of(const scene::CameraView& view, const figures::ReferencePoints& points) {
    const glm::dvec3 head_m = middle_of_head_m(points);
    const double axial = axial_m(view, head_m);
    return axial > 0 ? glm::distance(head_m, view.position_m) / axial
                     : std::numeric_limits<double>::infinity();
}

// At twice the distance along the axis the angle's tangent is half as large, and twice the focal
// length draws the head as large again.
std::optional<StretchMend> mend_stretch(const scene::Scene& scene, const scene::CameraView& view) {
    StretchMend worst;
    double axial = 0;
    for (std::size_t i = 0; i < scene.people.size(); ++i) {
        const figures::ReferencePoints points = reference_points(scene.people[i]);
        const double stretch = stretch_of(view, points);
        if (std::isfinite(stretch) && stretch > worst.stretch) {
            worst.person = i;
            worst.stretch = stretch;
            axial = axial_m(view, middle_of_head_m(points));
        }
    }
    if (worst.stretch < seen_stretch)
        return std::nullopt;
    const double times =
        std::sqrt((worst.stretch * worst.stretch - 1) / (seen_stretch * seen_stretch - 1));
    worst.lens_to_mark_m = scene.camera.lens_to_mark_m + axial * (times - 1);
    worst.focal_length_mm = view.lens.focal_length_mm * times;
    return worst;
}

}  // namespace backrow::plan
