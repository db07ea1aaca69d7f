#pragma once

// The skin of a sheet, linear: how much of each colour of the vertices is left.

#include "figures/skin/grain.h"

#include "base/image.h"

namespace backrow::figures {

/// Paints the face and the skin of no particular place; the rest of the sheet is left alone.
void paint_skin(const GrainKind& kind, Image<Rgb>& onto);

}  // namespace backrow::figures
