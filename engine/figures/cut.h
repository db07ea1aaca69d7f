#pragma once

// Hems: meshes cut off by the planes in which garments end.

#include "figures/flesh.h"

#include "shapes/mesh.h"

namespace backrow::figures {

/// Leaves of a garment's mesh what lies before the cuts of its pieces. Triangles across a cut are
/// divided, so that the edge is the plane's own line; they belong to the piece at their middle.
void cut_off(const Covering& garment, shapes::Mesh& mesh);

}  // namespace backrow::figures
