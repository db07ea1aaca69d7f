#pragma once

// Who or what hides whose face: bodies as solids, models by their triangles. Engine space, metres;
// no pixels.

#include "figures/figure.h"
#include "scene/model_shape.h"

#include <glm/mat4x4.hpp>
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

/// A model where the scene puts it. The shape must outlive it.
struct Obstacle {
    const scene::ModelShape* shape = nullptr;
    glm::dmat4 model_from_world{1};
};

/// How much of what the lens would see of a face alone is left, and what each of the others hides
/// of it; two may hide the same.
struct Visibility {
    double fraction = 0;  ///< 0 … 1, in steps of about a hundredth; 0 where it is turned away.
    std::vector<double> hidden_by_body{};      ///< A share for each of the bodies …
    std::vector<double> hidden_by_obstacle{};  ///< … and obstacles.
};

/// bodies   everybody's; own is the index of the face's owner, who hides nothing of it
/// lens_m   outside the head
[[nodiscard]] Visibility visibility(const FaceShape& face, const glm::dvec3& lens_m,
                                    const std::vector<Body>& bodies, std::size_t own,
                                    const std::vector<Obstacle>& obstacles = {});

}  // namespace backrow::plan
