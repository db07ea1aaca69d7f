#pragma once

// What is worn on the head: a hat with a brim, or a headscarf that frames the face and falls round
// the neck.

#include "figures/appearance.h"
#include "figures/head/head_mesh.h"
#include "figures/posture/skeleton.h"

#include "shapes/field.h"

namespace backrow::figures {

/// Height over the pupils of the line round the head at which a hat sits, for a place of the
/// modelled head, millimetres: low behind, high over the brow. Hair above it lies flat.
[[nodiscard]] double hat_line_mm(double z_mm) noexcept;

/// Appends nothing for bare heads. `top` and `neck` are what the scarf falls over.
void add_headwear(const PersonHead& head, const Appearance& look, const Skeleton& skeleton,
                  const BodyMeasures& measures, const shapes::Field& top, const shapes::Field& neck,
                  Detail detail, shapes::Mesh& onto);

}  // namespace backrow::figures
