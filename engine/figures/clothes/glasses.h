#pragma once

// Spectacles: thin frames before the eyes. Lenses are clear, so none are made.

#include "figures/head/head_mesh.h"

namespace backrow::figures {

/// Appends to the face what lies before it, to the body what runs back to the ears.
void add_glasses(const PersonHead& head, Detail detail, FigureMesh& onto);

}  // namespace backrow::figures
