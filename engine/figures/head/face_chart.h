#pragma once

// Where each texel of a sheet's face lies on the modelled head, so that lips, creases and pores are
// painted in the head's own millimetres.

#include <glm/vec2.hpp>
#include <glm/vec3.hpp>

namespace backrow::figures {

struct ChartPoint {
    glm::dvec3 at_mm{0};    ///< On the modelled head.
    glm::dvec2 laid_mm{0};  ///< Lengths along the skin, across from the mid-line and down: even
                            ///< where the nose or the brow is steep.
    glm::dvec2 stretch{1};  ///< How many millimetres of skin lie in one of the plane, across, down.
};

/// Columns and rows as of the sheet's face, skin_detail.h; between texels as well.
[[nodiscard]] ChartPoint chart_point(double column, double row);

}  // namespace backrow::figures
