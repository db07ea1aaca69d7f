#pragma once

// What finishes clothes: collars, plackets, lapels, buttons. All of it is laid on the field of the
// garment, so it follows every posture.

#include "figures/clothes/garments.h"
#include "figures/clothes/neckline.h"
#include "figures/figure.h"

#include "shapes/mesh.h"

namespace backrow::figures {

void add_trims(const Skeleton& skeleton, const Appearance& look, const BodyMeasures& measures,
               const TopFields& top, const Neckline& neckline, Detail detail, shapes::Mesh& onto);

}  // namespace backrow::figures
