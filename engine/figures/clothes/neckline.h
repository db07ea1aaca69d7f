#pragma once

// Where the neck leaves a garment, all round.

#include "figures/posture/skeleton.h"

#include "shapes/field.h"

#include <glm/vec3.hpp>

namespace backrow::figures {

struct Neckline {
    const Skeleton& skeleton;
    const shapes::Field& garment;
    const shapes::Field& neck;
    double stature_m;

    struct Place {
        glm::dvec3 at_m;
        glm::dvec3 out;  ///< Unit, level with the shoulders.
    };

    /// around_rad: 0 in front, towards the left.
    [[nodiscard]] Place at(double around_rad) const;
};

}  // namespace backrow::figures
