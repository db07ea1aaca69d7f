#pragma once

// The photographer's own picture of the place, as a backdrop or all round.

#include "setting/surroundings.h"

#include "base/image.h"

namespace backrow::setting {

/// The picture upright in the plane back_m behind the mark, as wide as it is said to be, in its own
/// light; and before it its lights (light_spots.h), a centimetre nearer, as highlights.
///
/// texture   what the material of the plane calls the picture
[[nodiscard]] std::vector<Piece> build_photograph(const Photograph& photograph, double back_m,
                                                  const Image<Rgba8>& picture, int texture);

/// An equirectangular picture (all bearings across, all elevations down) on a ball round the mark,
/// as far away as the built sky; and its lights.
///
/// turn_deg  bearing of the middle of the picture: 0 behind the group, 90 at picture right
[[nodiscard]] std::vector<Piece> build_panorama(const Image<Rgba8>& picture, double turn_deg,
                                                int texture);

}  // namespace backrow::setting
