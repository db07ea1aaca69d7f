#include "figures/body/flesh.h"

#include <glm/common.hpp>

namespace backrow::figures {

using glm::dvec3;

double leaves_at(const shapes::Field& body, const dvec3& from_m, const dvec3& along,
                 double reach_m) {
    double inside = 0, outside = reach_m;
    for (int i = 0; i < 12; ++i) {
        const double middle = (inside + outside) / 2;
        (body(from_m + along * middle) < 0 ? inside : outside) = middle;
    }
    return inside;
}

RoundedCone part_of(const RoundedCone& limb, double from_share, double to_share) {
    return {glm::mix(limb.from_m, limb.to_m, from_share),
            glm::mix(limb.from_m, limb.to_m, to_share),
            glm::mix(limb.from_radius_m, limb.to_radius_m, from_share),
            glm::mix(limb.from_radius_m, limb.to_radius_m, to_share)};
}

RoundedCone upper_arm(const Skeleton& s, const BodyMeasures& m, std::size_t side, double cloth_m) {
    const double u = m.stature_m * s.build.flesh;
    const Arm& arm = s.arms[side];
    const double beyond_joint = m.bideltoid_breadth_m / 2 - s.build.shoulder_half_m;
    return {glm::mix(arm.shoulder_m, arm.elbow_m, 0.15), arm.elbow_m,
            0.38 * beyond_joint + cloth_m / 2, 0.0235 * u + cloth_m};
}

RoundedCone deltoid(const Skeleton& s, const BodyMeasures& m, std::size_t side, double cloth_m) {
    const Arm& arm = s.arms[side];
    const double beyond_joint = m.bideltoid_breadth_m / 2 - s.build.shoulder_half_m;
    const double radius = 0.50 * beyond_joint;
    const double sign = side == 0 ? 1.0 : -1.0;
    // Fullest a hand's breadth below the top of the shoulder, from where sleeves fall straight.
    // Where the arm hangs, its outer side is as far from the other one's as was measured, but for
    // what the slant of the arm and the soft join with it add.
    const dvec3 out = s.trunk[0] * (sign * (beyond_joint - radius - 0.008 * m.stature_m));
    return {glm::mix(arm.shoulder_m, arm.elbow_m, 0.28) + out,
            glm::mix(arm.shoulder_m, arm.elbow_m, 0.70) + 0.55 * out, radius + cloth_m,
            0.76 * radius + cloth_m};
}

RoundedCone forearm(const Skeleton& s, const BodyMeasures& m, std::size_t side, double cloth_m) {
    const double u = m.stature_m * s.build.flesh;
    const Arm& arm = s.arms[side];
    return {arm.elbow_m, arm.wrist_m, 0.0235 * u + cloth_m, 0.0155 * u + cloth_m};
}

RoundedCone thigh(const Skeleton& s, const BodyMeasures& m, std::size_t side, double cloth_m) {
    const double u = m.stature_m * s.build.flesh;
    return {s.legs[side].hip_m, s.legs[side].knee_m, 0.0445 * u + cloth_m, 0.032 * u + cloth_m};
}

RoundedCone shank(const Skeleton& s, const BodyMeasures& m, std::size_t side, double cloth_m) {
    const double u = m.stature_m * s.build.flesh;
    return {s.legs[side].knee_m, s.legs[side].ankle_m, 0.031 * u + cloth_m, 0.021 * u + cloth_m};
}

RoundedCone collar_bone(const Skeleton& s, const BodyMeasures& m, std::size_t side,
                        double cloth_m) {
    const double u = m.stature_m;
    const dvec3 nape = s.on_trunk({0, s.build.shoulder_up_m + 0.024 * u, -0.013 * u});
    const dvec3 out = s.trunk[0] * (side == 0 ? 1.0 : -1.0);
    // It ends on the point of the shoulder, over the joint and beyond it.
    return {nape, s.arms[side].shoulder_m + out * (0.010 * u) - s.trunk[1] * (0.010 * u),
            0.028 * u + cloth_m / 2, 0.016 * u * s.build.flesh + cloth_m / 2};
}

shapes::Field neck_of(const Skeleton& s, const BodyMeasures& m, bool feminine) {
    const double u = m.stature_m;
    // Necks follow heads more than shoulders: a child's is thin.
    const double share = glm::mix(feminine ? 0.305 : 0.345, 0.300, s.build.childhood);
    const double r = share * m.head_breadth_m;
    const dvec3 root = s.on_trunk({0, s.build.shoulder_up_m - 0.02 * u, -0.012 * u});
    const dvec3 skull =
        s.head_m + s.head * dvec3{0, -0.05 * m.head_height_m, -0.06 * m.head_length_m};
    const RoundedCone neck{root, skull, 1.08 * r, 0.98 * r};
    const RoundedCone throat{root + s.trunk * dvec3{0, 0.0, 0.022 * u},
                             s.head_m +
                                 s.head * dvec3{0, -0.22 * m.head_height_m, 0.13 * m.head_length_m},
                             0.8 * r, 0.66 * r};
    return [=](const dvec3& p) {
        return smooth_min(neck.distance_m(p), throat.distance_m(p), 0.03 * u);
    };
}

}  // namespace backrow::figures
