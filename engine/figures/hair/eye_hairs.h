#pragma once

// Lashes and brow of one eye, hair by hair.

#include "figures/appearance.h"
#include "figures/measures/eye_place.h"

#include <glm/vec3.hpp>

#include <vector>

namespace backrow::figures {

/// A hair of the left brow on the modelled head, millimetres: three points of it, and two of the
/// skin beside and above its root.
struct BrowHair {
    glm::dvec3 root_mm, bend_mm, tip_mm, beside_mm, above_mm;
};

/// Those of one brow; the other is its mirror image. More the finer the detail.
[[nodiscard]] std::vector<BrowHair> brow_hairs(const Appearance& look, Detail detail);

/// Each appends; more lashes the finer the detail.
void add_lashes(const EyePlace& place, const Appearance& look, Detail detail, shapes::Mesh& mesh);
void add_brow(const EyePlace& place, const std::vector<BrowHair>& hairs, const Appearance& look,
              Detail detail, shapes::Mesh& mesh);

}  // namespace backrow::figures
