#include "scene/clearance.h"

#include <algorithm>
#include <limits>

namespace backrow::scene {

double nearest_part_m(const CameraView& view, const std::vector<figures::Capsule>& solids) {
    double nearest = std::numeric_limits<double>::infinity();
    for (const figures::Capsule& solid : solids)
        nearest = std::min({nearest, axial_m(view, solid.from_m) - solid.radius_m,
                            axial_m(view, solid.to_m) - solid.radius_m});
    return nearest;
}

}  // namespace backrow::scene
