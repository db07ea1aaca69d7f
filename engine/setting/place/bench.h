#pragma once

// The seats that people sit on: stools and benches of wood.

#include "setting/surroundings.h"

#include "shapes/mesh.h"

namespace backrow::setting {

/// Slats on a frame with turned legs, which stand on the seat's own floor: within the block's box,
/// its top exactly as high. A long one has legs under its middle too; a low one has stout short
/// ones and no rails between them. Each part is a convex solid.
///
/// number   keys what differs from seat to seat
void append_bench(shapes::Mesh& mesh, const Block& seat, int number);

}  // namespace backrow::setting
