#pragma once

// Eyeballs, rims of the lids, lashes and brows.

#include "figures/head/head_mesh.h"
#include "figures/head/head_template.h"

namespace backrow::figures {

/// Appends both.
void add_eyes(const PersonHead& head, const Appearance& look, const HeadTemplate& form,
              Detail detail, const EyeLight& light, shapes::Mesh& onto);

}  // namespace backrow::figures
