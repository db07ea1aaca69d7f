#pragma once

// Hair: locks that start at the whorl, follow the skull to the hair line and fall from there.

#include "figures/head/head_mesh.h"

namespace backrow::figures {

/// Whether the ears are hidden altogether.
[[nodiscard]] bool covers_ears(HairStyle style) noexcept;

/// Appends nothing for bald heads.
void add_hair(const PersonHead& head, const Appearance& look, Detail detail, shapes::Mesh& onto);

}  // namespace backrow::figures
