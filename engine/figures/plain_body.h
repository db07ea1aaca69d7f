#pragma once

// Clothes for small pictures: a few rings round the trunk and along the limbs, where the cells of a
// finer mesh would be wider than an arm.

#include "figures/flesh.h"

#include "shapes/mesh.h"

namespace backrow::figures {

/// Rings and the points in each.
struct Rings {
    int trunk_rows, trunk_columns;
    int limb_rows, limb_columns;  ///< Rows in one bone.
};

[[nodiscard]] shapes::Mesh plain_top(const Skeleton& skeleton, const Appearance& look,
                                     const BodyMeasures& measures, const Covering& top,
                                     const Rings& rings);
[[nodiscard]] shapes::Mesh plain_bottom(const Skeleton& skeleton, const Appearance& look,
                                        const BodyMeasures& measures, const Covering& bottom,
                                        const Rings& rings);
/// Neck, bare forearms, shanks under a skirt.
[[nodiscard]] shapes::Mesh plain_skin(const Skeleton& skeleton, const Appearance& look,
                                      const BodyMeasures& measures, const Covering& neck,
                                      const Rings& rings);

}  // namespace backrow::figures
