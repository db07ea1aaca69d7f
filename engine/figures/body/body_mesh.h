#pragma once

// Everything below the chin: clothes, arms, legs, hands, shoes.

#include "figures/appearance.h"
#include "figures/head/head_mesh.h"
#include "figures/posture/skeleton.h"

#include "shapes/mesh.h"

namespace backrow::figures {

/// Appends. The head lends its measures to a headscarf, which falls over the shoulders.
void add_body(const PersonHead& head, const Skeleton& skeleton, const Appearance& look,
              const BodyMeasures& measures, Detail detail, shapes::Mesh& onto);

}  // namespace backrow::figures
