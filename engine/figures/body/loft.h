#pragma once

// Surfaces through rows of points: sleeves' cuffs, fingers, shoes, ears, locks of hair.

#include "shapes/mesh.h"

#include <glm/vec3.hpp>

#include <vector>

namespace backrow::figures {

struct LoftPoint {
    glm::dvec3 at_m{0};
    glm::dvec3 colour{0.5};  ///< Linear; brought into 0 … 1 when appended.
    double ambient_visibility = 1;
};

/// Rows of equally many points. Seen from outside, columns run to the right as rows run downwards.
struct Loft {
    int columns = 0;
    bool closed = true;             ///< The last column meets the first.
    std::vector<LoftPoint> points;  ///< Row after row.
};

/// Which part of the sheet of skin_detail.h is laid over a surface: across its columns and along
/// its rows, in its own millimetres.
enum class Cover { plain, skin, hair };

/// Adds the surface, its normals being the means of the triangles around each point. Triangles that
/// have shrunk to a line, as where a row meets in one point, are left out.
void append(const Loft& loft, shapes::Mesh& onto, Cover cover = Cover::plain);

}  // namespace backrow::figures
