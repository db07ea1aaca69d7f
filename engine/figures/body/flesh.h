#pragma once

// Bodies as fields, negative inside, roughly metres: rounded cones along the bones, joined
// smoothly. The trunk is in trunk.h.

#include "figures/posture/skeleton.h"

#include "shapes/field.h"

#include <glm/geometric.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace backrow::figures {

/// The smaller of two distances with the corner between them rounded over `blend_m`.
/// Source: [QUILEZ] polynomial smooth minimum.
[[nodiscard]] inline double smooth_min(double a, double b, double blend_m) noexcept {
    const double h = std::max(blend_m - std::abs(a - b), 0.0) / blend_m;
    return std::min(a, b) - h * h * blend_m / 4;
}

/// Where a ray that starts inside leaves a body: its length there, metres, between 0 and reach_m.
[[nodiscard]] double leaves_at(const shapes::Field& body, const glm::dvec3& from_m,
                               const glm::dvec3& along, double reach_m);

/// A limb between two balls.
struct RoundedCone {
    glm::dvec3 from_m, to_m;
    double from_radius_m = 0, to_radius_m = 0;

    [[nodiscard]] double distance_m(const glm::dvec3& p) const noexcept {
        const glm::dvec3 bone = to_m - from_m;
        const glm::dvec3 off = p - from_m;
        const double t = std::clamp(glm::dot(off, bone) / glm::dot(bone, bone), 0.0, 1.0);
        return glm::length(off - bone * t) - (from_radius_m + (to_radius_m - from_radius_m) * t);
    }

    /// How far p lies beyond the bone's end, along it.
    [[nodiscard]] double beyond_end_m(const glm::dvec3& p) const noexcept {
        return glm::dot(p - to_m, glm::normalize(to_m - from_m));
    }

    [[nodiscard]] glm::dvec3 along() const noexcept { return glm::normalize(to_m - from_m); }
};

/// The part of a limb between two shares of its length, which may lie beyond its ends.
[[nodiscard]] RoundedCone part_of(const RoundedCone& limb, double from_share, double to_share);

/// The limbs, `cloth_m` thicker than bare; side 0 = left.
[[nodiscard]] RoundedCone upper_arm(const Skeleton& skeleton, const BodyMeasures& measures,
                                    std::size_t side, double cloth_m);
/// The muscle over the shoulder's joint, which makes shoulders as broad as they are.
[[nodiscard]] RoundedCone deltoid(const Skeleton& skeleton, const BodyMeasures& measures,
                                  std::size_t side, double cloth_m);
[[nodiscard]] RoundedCone forearm(const Skeleton& skeleton, const BodyMeasures& measures,
                                  std::size_t side, double cloth_m);
[[nodiscard]] RoundedCone thigh(const Skeleton& skeleton, const BodyMeasures& measures,
                                std::size_t side, double cloth_m);
[[nodiscard]] RoundedCone shank(const Skeleton& skeleton, const BodyMeasures& measures,
                                std::size_t side, double cloth_m);

/// A collar bone with the muscle that rises from it to the neck.
[[nodiscard]] RoundedCone collar_bone(const Skeleton& skeleton, const BodyMeasures& measures,
                                      std::size_t side, double cloth_m);

/// The neck and its throat.
[[nodiscard]] shapes::Field neck_of(const Skeleton& skeleton, const BodyMeasures& measures,
                                    bool feminine);

}  // namespace backrow::figures
