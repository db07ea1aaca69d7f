#pragma once

// What lies round the neck: ribbed bands, folded shirt collars, the collar of a jacket.

#include "figures/clothes/neckline.h"

#include "shapes/mesh.h"

#include <glm/vec3.hpp>

namespace backrow::figures {

/// A band all round, as of a jumper.
void add_neckband(const Neckline& line, const glm::dvec3& colour, int columns, shapes::Mesh& onto);

/// A collar that stands up and is folded over, open in front, with two points.
/// open_rad   half the angle of the opening
void add_shirt_collar(const Neckline& line, const glm::dvec3& colour, double open_rad, int columns,
                      shapes::Mesh& onto);

/// The jacket's own, round the back of a shirt collar; it ends where the lapels begin.
void add_jacket_collar(const Neckline& line, const glm::dvec3& colour, int columns,
                       shapes::Mesh& onto);

}  // namespace backrow::figures
