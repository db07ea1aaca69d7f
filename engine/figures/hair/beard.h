#pragma once

// A full beard: from the sideburns along the cheeks and under the jaw, and on the upper lip.

#include "figures/head/head_mesh.h"

namespace backrow::figures {

/// Appends, for all but far figures, whose skin is painted instead. It lies on the skin, which
/// stays as it is underneath.
void add_beard(const PersonHead& head, const Appearance& look, Detail detail, shapes::Mesh& onto);

}  // namespace backrow::figures
