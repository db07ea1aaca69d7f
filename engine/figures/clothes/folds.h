#pragma once

// How cloth gathers: where a joint bends, above a cuff or belt, round the waist, down from a hem.
// Metres outwards, to be added to a smooth garment.

#include "figures/appearance.h"

#include <glm/geometric.hpp>
#include <glm/vec3.hpp>

namespace backrow::figures {

/// Folds of the body of a top.
struct TrunkFolds {
    const Appearance look;
    double stature_m;
    double shoulder_up_m;
    double belt_up_m;

    /// up_m from the hips along the trunk; around_rad from straight ahead towards the left.
    [[nodiscard]] double out_m(double up_m, double around_rad) const;
};

/// Folds of a sleeve or a trouser leg: a tube with one bend.
struct LimbFolds {
    double stature_m;
    double to_bend_m;          ///< Along the limb, from the beginning …
    double to_end_m;           ///< … to cuff or ankle.
    glm::dvec3 before, after;  ///< Unit, along the limb on either side of the bend.
    double looseness = 1;      ///< 0 stiff … 1 a shirt.
    double phase_rad = 0;      ///< No two people's are alike.

    /// out: unit, from the limb's axis.
    [[nodiscard]] double out_m(double along_m, const glm::dvec3& out) const;
};

}  // namespace backrow::figures
