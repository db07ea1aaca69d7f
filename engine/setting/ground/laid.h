#pragma once

// Ground laid from pieces with open joints: slabs, planks.

#include "setting/surroundings.h"

#include <glm/vec2.hpp>
#include <glm/vec3.hpp>

namespace backrow::setting {

/// One slab or plank seen from above; engine x and z.
struct LaidPiece {
    glm::vec2 low_m{0};
    glm::vec2 high_m{0};
    glm::vec2 grain_m{0.1F};  ///< Size of its markings across and along.
    float lean = 0;  ///< Slope of its top, −0.01 … 0.01, so that pieces catch light apart.
    int key = 0;
};

/// What the pieces are made of.
struct Laying {
    glm::vec3 light{1};
    glm::vec3 dark{0};
    glm::vec3 joint{0};
    float joint_depth_m = 0.008F;
    float bevel_m = 0.003F;
    float near_m = 4;  ///< Markings and bevels are modelled within this distance of the mark.
    float gloss = 0;
    float joint_share = 0.05F;  ///< Of the area, for the colour far away.
};

/// The laid field over low … high, and an even ground of its mean colour from there to the horizon.
[[nodiscard]] std::vector<Piece> lay(const std::vector<LaidPiece>& pieces, const Laying& laying,
                                     const glm::vec2& low_m, const glm::vec2& high_m);

}  // namespace backrow::setting
