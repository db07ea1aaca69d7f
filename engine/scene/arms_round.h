#pragma once

// Arms round neighbours and hands on shoulders: who is meant, and where the hand comes to lie.

#include "scene/scene.h"

#include <vector>

namespace backrow::scene {

/// Fills those holds of Pose that are still free for everybody whose arms ask for it. A neighbour
/// stands next in the same row, or is placed alone likewise; the hand goes as far round as it
/// reaches, to the far shoulder at best. Where two have an arm round each other, the arm of whoever
/// has the higher shoulders lies over the other's. A hand on a shoulder is laid on the nearest one
/// in front that it reaches, or else on a neighbour's. What is out of reach is left alone.
void lay_arms(std::vector<Person>& people);

}  // namespace backrow::scene
