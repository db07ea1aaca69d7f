#pragma once

// Hands and shoes.

#include "figures/appearance.h"
#include "figures/figure.h"
#include "figures/posture/skeleton.h"

#include "shapes/mesh.h"

namespace backrow::figures {

/// 0 = left. Both append.
void add_hand(const Skeleton& skeleton, const Appearance& look, const BodyMeasures& measures,
              Detail detail, int side, shapes::Mesh& onto);
void add_shoe(const Skeleton& skeleton, const Appearance& look, Detail detail, int side,
              shapes::Mesh& onto);

}  // namespace backrow::figures
