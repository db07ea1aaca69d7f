#pragma once

// The skin of a sheet, linear: how much of each colour of the vertices is left.

#include "figures/skin/skin_detail.h"

#include "base/image.h"

namespace backrow::figures {

/// The rows of the face, and under them those of skin of no particular place. Any thread may ask;
/// it has the work done on several.
[[nodiscard]] Image<Rgb> painted_skin(const SkinDetailKind& kind);

}  // namespace backrow::figures
