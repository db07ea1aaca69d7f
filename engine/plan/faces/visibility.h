#pragma once

// Who hides whose face, with bodies as solids. Engine space, metres; no pixels.

#include "figures/figure.h"

#include <glm/vec3.hpp>

#include <cstddef>
#include <vector>

namespace backrow::plan {

/// Somebody's solids, and a ball round all of them for a quick no.
struct Body {
    std::vector<figures::Capsule> solids;
    glm::dvec3 middle_m{0};
    double reach_m = 0;
};

/// solids  at least one
[[nodiscard]] Body body_from_solids(std::vector<figures::Capsule> solids);

/// The front of a head as half of an egg: half-axes from its middle towards the right ear, the
/// crown and the nose. The face ends above at the hair line and at the sides at the ears.
struct FaceShape {
    glm::dvec3 middle_m{0};
    glm::dvec3 half_across_m{0.07, 0, 0};
    glm::dvec3 half_up_m{0, 0.11, 0};
    glm::dvec3 half_deep_m{0, 0, 0.1};
};

[[nodiscard]] FaceShape face_shape(const figures::ReferencePoints& points);

/// Share of what the lens would see of this face alone that no other body hides.
///
/// bodies   everybody's; own is the index of the face's owner, who hides nothing of it
/// lens_m   outside the head
/// returns  0 … 1, in steps of about a hundredth; 0 where the face is turned away altogether
[[nodiscard]] double visible_fraction(const FaceShape& face, const glm::dvec3& lens_m,
                                      const std::vector<Body>& bodies, std::size_t own);

}  // namespace backrow::plan
