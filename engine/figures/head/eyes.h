#pragma once

// Eyeball, rim of the lids, lashes and brow of one eye.

#include "figures/head/head_mesh.h"
#include "figures/head/head_template.h"

namespace backrow::figures {

/// side 0 = the person's left. Appends.
void add_eye(const PersonHead& head, const Appearance& look, const HeadTemplate& form,
             Detail detail, const EyeLight& light, int side, shapes::Mesh& onto);

}  // namespace backrow::figures
