#pragma once

// Everything below the chin: clothes, arms, legs, hands, shoes.

#include "figures/appearance.h"
#include "figures/skeleton.h"

#include "shapes/mesh.h"

namespace backrow::figures {

/// Appends.
void add_body(const Skeleton& skeleton, const Appearance& look, const BodyMeasures& measures,
              Detail detail, shapes::Mesh& onto);

}  // namespace backrow::figures
