#pragma once

// What an open mouth shows: teeth, gums, tongue and the dark behind them.

#include "figures/head/head_mesh.h"
#include "figures/head/head_template.h"

namespace backrow::figures {

/// For a head whose lips have parted. Appends.
void add_mouth(const PersonHead& head, const Appearance& look, const HeadTemplate& form,
               const BodyMeasures& measures, Detail detail, shapes::Mesh& onto);

}  // namespace backrow::figures
