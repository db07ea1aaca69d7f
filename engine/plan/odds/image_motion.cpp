#include "plan/odds/image_motion.h"

#include "plan/faces/facing.h"

#include "base/units.h"

#include <glm/geometric.hpp>

namespace backrow::plan {

ImageMotion image_motion(const scene::CameraView& view, const glm::dvec3& point_m,
                         const glm::dvec3& velocity_mps) {
    const double axial = axial_m(view, point_m);
    const double axial_mps = glm::dot(velocity_mps, view.forward);
    const glm::dvec3 across_m = point_m - view.position_m - axial * view.forward;
    const glm::dvec3 across_mps = velocity_mps - axial_mps * view.forward;
    return {.magnification = view.image_distance_mm() / mm_from_m(axial),
            .speed_mps = glm::length(across_mps - across_m * (axial_mps / axial))};
}

glm::dvec3 walk_mps(const scene::Person& person) {
    return person.speed_mps * facing(person.heading_deg);
}

}  // namespace backrow::plan
