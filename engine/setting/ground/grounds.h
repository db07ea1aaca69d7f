#pragma once

// The four grounds, each in a file of its own. All lie at up 0, reach past the sky dome, and end in
// one even colour far away, where detail finer than a pixel would only shimmer.

#include "setting/surroundings.h"

namespace backrow::setting {

/// Half the side of the ground; the dome stands inside it, so no gap shows at the horizon.
inline constexpr float ground_half_side_m = 640;
inline constexpr float dome_radius_m = 600;

/// Mown in stripes, with blades where people stand.
[[nodiscard]] std::vector<Piece> build_grass();
/// Slabs in a running bond with open joints.
[[nodiscard]] std::vector<Piece> build_paving();
/// Wind ripples.
[[nodiscard]] std::vector<Piece> build_sand();
/// A deck of planks that run away from the camera.
[[nodiscard]] std::vector<Piece> build_boards();

}  // namespace backrow::setting
