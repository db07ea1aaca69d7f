#pragma once

// The front of a jacket: shirt, tie, lapels, buttons, pockets.

#include "figures/appearance.h"
#include "figures/body/chest.h"
#include "figures/clothes/neckline.h"

#include "shapes/mesh.h"

namespace backrow::figures {

/// close_m   height at which the jacket closes, up the trunk from the hips
/// low_m     its hem in front, likewise
/// fine      1 or 2: points across and down
void add_jacket_front(const Chest& chest, const Appearance& look, const Neckline& neckline,
                      double close_m, double low_m, int fine, shapes::Mesh& onto);

}  // namespace backrow::figures
