#pragma once

// How hair is cut and where it lies: thickness, hair line, parting, locks and curls, on the
// modelled head.

#include "figures/appearance.h"

#include <glm/vec3.hpp>

namespace backrow::figures {

/// Millimetres of the modelled head.
struct HairCut {
    glm::dvec3 whorl;        ///< Direction of the crown, from which locks spread.
    double parting_rad;      ///< Where a parting meets the hair line, from straight ahead.
    bool parted;             ///< Locks leave from the parting; else all from the whorl.
    double top_mm, side_mm;  ///< Thickness over the skull.
    double front_mm;         ///< Thickness at the front hair line.
    double fall_to_mm;       ///< Height where hanging hair ends; no hanging hair if above the ears.
    double lump_mm;          ///< Curls.
    double wave_mm;          ///< Waves of hanging hair.
    double fringe_mm;        ///< How far the front comes down over the forehead.
};

[[nodiscard]] HairCut cut_of(HairStyle style);

/// Elevation of the hair line seen from the middle of the head, by the angle from straight ahead.
[[nodiscard]] double hair_line_rad(double around_rad);

/// Unit direction from the middle of the head.
[[nodiscard]] glm::dvec3 head_direction(double around_rad, double up_rad);

/// From one direction to another along the great circle; shares beyond 1 go on.
[[nodiscard]] glm::dvec3 between_directions(const glm::dvec3& from, const glm::dvec3& to,
                                            double share);

/// Radius of the skull, millimetres, without features.
[[nodiscard]] double skull_radius_mm(const glm::dvec3& direction);

/// Where the lock that ends at `around_rad` begins: at the whorl or along the parting.
[[nodiscard]] glm::dvec3 root_of(const HairCut& cut, double around_rad);

/// Locks, −1 … 1, by where they are, so that coarser meshes show the same ones.
[[nodiscard]] double lock_value(double around_rad, int k);

/// Single hairs, −1 … 1.
[[nodiscard]] double hair_value(int number, int k);

/// Curls lie where they lie on the head, whatever the mesh; about −1 … 1.
[[nodiscard]] double curl_value(const glm::dvec3& direction);

}  // namespace backrow::figures
