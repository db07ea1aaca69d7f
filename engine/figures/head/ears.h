#pragma once

// Ears.

#include "figures/head/head_mesh.h"

namespace backrow::figures {

/// Both ears. Appends.
void add_ears(const PersonHead& head, const Appearance& look, Detail detail, shapes::Mesh& onto);

}  // namespace backrow::figures
