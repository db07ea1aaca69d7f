#pragma once

// How blurred a piece of a picture is that holds nothing known to be sharp: by how its detail fades
// from fine to coarse.
//
// Where edges and detail of all sizes were sharp, the power of their second derivatives (Laplacian
// of a Gaussian of width s) falls as s⁻³; a blur of width b makes that (b² + s²)^−3/2. So two
// widths of the search tell b. It is an estimate: what was photographed need not have all sizes.
// Source: [FIELD1987]; derived in engine/README.md.

#include "measure/pixel_box.h"

#include "base/image.h"

#include <optional>

namespace backrow::measure {

/// Diameter of the disc that would blur as much, pixels.
///
/// picture  as it is shown, 0 … 1, not linear: dark and bright detail count alike
/// box      must lie within the picture
/// returns  nothing where the box is too small or there is no detail above the noise
[[nodiscard]] std::optional<double> detail_blur_px(const Image<float>& picture,
                                                   const PixelBox& box);

}  // namespace backrow::measure
