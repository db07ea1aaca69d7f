#pragma once

// The skin of a sheet, linear: how much of each colour of the vertices is left.

#include "figures/skin/skin_detail.h"

#include "base/image.h"

namespace backrow::figures {

/// Paints the face and the skin of no particular place; the rest of the sheet is left alone.
void paint_skin(const SkinDetailKind& kind, Image<Rgb>& onto);

}  // namespace backrow::figures
