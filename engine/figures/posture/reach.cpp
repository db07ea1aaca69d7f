#include "figures/posture/reach.h"

#include "figures/posture/limbs.h"
#include "figures/posture/skeleton.h"

#include "base/units.h"

#include <glm/common.hpp>
#include <glm/geometric.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <vector>

namespace backrow::figures {
namespace {

using glm::dvec3;

/// How far along a hand its palm is and the roots of its fingers, and how thick half of a palm is,
/// in hands.
constexpr double palm_along = 0.42;
constexpr double fingers_along = 0.75;
constexpr double palm_half_thickness = 0.10;
/// Sleeves give by that much, metres.
constexpr double cloth_gives_m = 0.025;

double distance_m(const dvec3& p, const Capsule& solid) {
    const dvec3 axis = solid.to_m - solid.from_m;
    const double length2 = std::max(1e-12, glm::dot(axis, axis));
    const double t = std::clamp(glm::dot(p - solid.from_m, axis) / length2, 0.0, 1.0);
    return glm::distance(p, solid.from_m + axis * t) - solid.radius_m;
}

/// How deep a bone as thick as its flesh runs through solids, looked for at steps along it.
double depth_m(const dvec3& from, const dvec3& to, double radius_m, std::span<const Capsule> all) {
    constexpr int steps = 8;
    double deepest = 0;
    for (int i = 0; i <= steps; ++i) {
        const dvec3 p = glm::mix(from, to, i / static_cast<double>(steps));
        for (const Capsule& solid : all)
            deepest = std::max(deepest, radius_m - distance_m(p, solid));
    }
    return deepest;
}

/// An arm of somebody whose trunk stays where it is.
struct Reacher {
    const Skeleton& s;
    double stature_m;
    int side;
    std::span<const Capsule> round_m;
    std::vector<Capsule> own;  ///< The own trunk.

    [[nodiscard]] std::optional<Hold> lay(const Spot& spot, const dvec3& fingers,
                                          double hand_share) const;
};

std::optional<Hold> Reacher::lay(const Spot& spot, const dvec3& fingers, double hand_share) const {
    const Build& b = s.build;
    const double u = stature_m;
    const double out = side == 0 ? 1.0 : -1.0;
    const dvec3 shoulder = s.arms[static_cast<std::size_t>(side)].shoulder_m;
    const dvec3 surface = glm::normalize(fingers - spot.out * glm::dot(fingers, spot.out));
    const dvec3 touching = spot.at_m + spot.out * (palm_half_thickness * b.hand_m + 0.010 * u);
    const dvec3 wrist = touching - surface * (hand_share * b.hand_m);
    const double flexed_rad = rad_from_deg(180 - elbow_flexion_deg);
    const double least_m = std::sqrt(b.upper_arm_m * b.upper_arm_m + b.forearm_m * b.forearm_m -
                                     2 * b.upper_arm_m * b.forearm_m * std::cos(flexed_rad));
    const double far_m = glm::distance(shoulder, wrist);
    if (far_m < least_m || far_m > 0.985 * (b.upper_arm_m + b.forearm_m))
        return std::nullopt;

    const dvec3 line = (wrist - shoulder) / far_m;
    // Elbows hang where they can.
    const dvec3 hanging = s.trunk * dvec3{0.35 * out, -1, -0.35};
    const dvec3 first = glm::normalize(hanging - line * glm::dot(hanging, line));
    const dvec3 second = glm::cross(line, first);
    const double thick = u * b.flesh;
    double best = std::numeric_limits<double>::infinity();
    std::optional<Hold> hold;
    constexpr int swivels = 24;
    for (int k = 0; k < swivels; ++k) {
        const double a = 2 * std::numbers::pi * k / swivels;
        const dvec3 elbow_side = first * std::cos(a) + second * std::sin(a);
        dvec3 end = wrist;
        const dvec3 elbow = bend(shoulder, end, b.upper_arm_m, b.forearm_m, elbow_side);
        const dvec3 upper = glm::normalize(elbow - shoulder);
        if (-glm::dot(upper, s.trunk[2]) > std::sin(rad_from_deg(shoulder_backwards_deg)))
            continue;
        // Near its own joint the arm is beside the neighbour's, whatever it does.
        const double upper_radius_m = 0.026 * thick, fore_radius_m = 0.020 * thick;
        const dvec3 near_hand = glm::mix(elbow, wrist, 0.9);
        const double depth =
            std::max({depth_m(glm::mix(shoulder, elbow, 0.35), elbow, upper_radius_m, round_m),
                      depth_m(elbow, near_hand, fore_radius_m, round_m),
                      depth_m(glm::mix(shoulder, elbow, 0.6), elbow, upper_radius_m, own),
                      depth_m(elbow, near_hand, fore_radius_m, own)});
        if (depth > cloth_gives_m)
            continue;
        const double cost = depth / cloth_gives_m + 0.3 * (1 - std::cos(a));
        if (cost < best) {
            best = cost;
            hold =
                Hold{.wrist_m = wrist, .elbow = elbow_side, .fingers = surface, .palm = -spot.out};
        }
    }
    return hold;
}

}  // namespace

std::optional<Hold> reach(const Person& person, int side, const Spot& spot, const dvec3& fingers,
                          std::span<const Capsule> round_m) {
    const Skeleton joints = skeleton(person);
    const Reacher arm{joints, person.measures.stature_m, side, round_m, trunk_solids(person)};
    for (const double hand_share : {palm_along, fingers_along})
        if (auto hold = arm.lay(spot, fingers, hand_share))
            return hold;
    return std::nullopt;
}

}  // namespace backrow::figures
