#pragma once

#include "setting/surroundings.h"

namespace backrow::setting {

/// Facets of waves that mirror the sun into the lens: highlights just above a sheet of water.
///
/// back_m  where the water begins, and where reach was measured
/// up_m    how high the water lies
[[nodiscard]] std::vector<Piece> build_glints(double back_m, float up_m, const Reach& reach);

}  // namespace backrow::setting
