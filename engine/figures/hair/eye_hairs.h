#pragma once

// Lashes and brow of one eye, hair by hair.

#include "figures/appearance.h"
#include "figures/measures/eye_place.h"

namespace backrow::figures {

/// Each appends; more hairs the finer the detail.
void add_lashes(const EyePlace& place, const Appearance& look, Detail detail, shapes::Mesh& mesh);
void add_brow(const EyePlace& place, const Appearance& look, Detail detail, shapes::Mesh& mesh);

}  // namespace backrow::figures
