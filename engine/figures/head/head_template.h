#pragma once

// The modelled head as a mesh, triangulated once for each detail and then fitted to everybody.

#include "figures/figure.h"

#include <glm/vec2.hpp>
#include <glm/vec3.hpp>

#include <array>
#include <cstdint>
#include <vector>

namespace backrow::figures {

/// How much of each paint a point of the skin takes, 0 … 1.
struct Paint {
    double lips = 0;
    double mouth_line = 0;
    double blush = 0;
    double brow = 0;
    double nostril = 0;
    double lid_edge = 0;   ///< The row of lashes and the wet rim.
    double lid_shade = 0;  ///< Crease and inner corner.
    double beard = 0;
    double scalp = 0;  ///< Above the hair line and behind the ears.
    double ambient_visibility = 1;
    double blotches = 0, fine_blotches = 0;  ///< −1 … 1, from place to place.
};

struct HeadTemplate {
    std::vector<glm::dvec3> points_mm;                ///< Model space, features included.
    std::vector<Paint> paint;                         ///< One a point.
    std::vector<glm::dvec2> plane_mm;                 ///< One a point: the head unrolled.
    std::vector<std::array<std::uint32_t, 3>> face;   ///< Chin to hair line, ear to ear.
    std::vector<std::array<std::uint32_t, 3>> skull;  ///< The rest.
    /// Edge of the opening of each eye (0 = left), in order round it, upper lid first.
    std::array<std::vector<std::uint32_t>, 2> rims;
    /// The edges of the mouth, where the skin is slit between the lips, from the person's right to
    /// the left; both begin and end in the corners. Empty where the head is too coarse to have
    /// lips.
    std::vector<std::uint32_t> upper_lip, lower_lip;
};

[[nodiscard]] const HeadTemplate& head_template(Detail detail);

/// The head unrolled from its front: how far a point of the plane lies from its middle is the angle
/// off straight ahead, times a radius. Here, from the plane to the skin with its features.
[[nodiscard]] glm::dvec3 rolled_mm(const glm::dvec2& plane_mm);

/// Where the reference points are on the modelled head.
[[nodiscard]] const glm::dvec3& model_nose_tip_mm();
[[nodiscard]] const glm::dvec3& model_chin_mm();
[[nodiscard]] const glm::dvec3& model_crown_mm();
[[nodiscard]] const glm::dvec3& model_ear_mm();  ///< Left tragus.

}  // namespace backrow::figures
