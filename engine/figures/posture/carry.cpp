#include "figures/posture/carry.h"

#include "figures/appearance.h"
#include "figures/body/flesh.h"
#include "figures/body/trunk.h"
#include "figures/clothes/garments.h"
#include "figures/head/head_frame.h"
#include "figures/posture/limbs.h"
#include "figures/posture/reach.h"
#include "figures/posture/skeleton.h"
#include "figures/posture/spots.h"

#include <glm/common.hpp>
#include <glm/geometric.hpp>

#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

namespace backrow::figures {
namespace {

using glm::dvec3;

constexpr double twist_on_hip_deg = 58;

/// Places on a head for hands that hold on to it, behind the hair line.
Spot on_the_head(const Skeleton& s, const BodyMeasures& m, double out) {
    const HeadFrame frame{m};
    const dvec3 middle = s.head_m + s.head * frame.head_from_model({0, 32, -4});
    const dvec3 off = s.head * glm::normalize(dvec3{out * 0.62, 0.72, 0.12});
    return {middle + off * (0.52 * m.head_breadth_m + 0.010), off};
}

std::size_t index_of(double side) {
    return side > 0 ? 0 : 1;
}

/// Astride above the hip, a little before it, the trunk against the carrier's.
dvec3 seat_on_hip_m(const Skeleton& s, const Person& carrier, const Person& child, double side) {
    const Appearance look = appearance(carrier);
    const Trunk trunk{s, carrier.measures, look.feminine, cloth_of_top_m(look, carrier.measures)};
    const double u = carrier.measures.stature_m;
    const Build b = build_of(child.measures);
    const dvec3 waist = s.on_trunk({0, 0.055 * u + b.seat_to_hip_m, 0});
    const dvec3 out = s.trunk * glm::normalize(dvec3{side, 0, 0.30});
    const shapes::Field body = [&](const dvec3& p) { return trunk.distance_m(p); };
    const double child_half_depth_m = 0.66 * child.measures.chest_depth_m + 0.010;
    return waist + out * (leaves_at(body, waist, out, 0.3 * u) + child_half_depth_m);
}

/// Behind the head, on the nape and the shoulders.
dvec3 seat_on_shoulders_m(const Skeleton& s, const Person& carrier, const Person& child) {
    const double u = carrier.measures.stature_m;
    const Build b = build_of(child.measures);
    const dvec3 nape = s.on_trunk({0, s.build.shoulder_up_m + 0.012 * u, 0});
    const double behind_m =
        0.50 * carrier.measures.head_length_m + 0.38 * child.measures.chest_depth_m;
    return nape + dvec3{0, b.seat_to_hip_m, 0} - s.head[2] * behind_m;
}

}  // namespace

double twist_deg(const Pose& pose) {
    return pose.posture == Posture::on_hip ? -pose.seating.side * twist_on_hip_deg : 0.0;
}

void place_carried_legs(Skeleton& s, const Person& person) {
    const Build& b = s.build;
    const Pose& pose = person.pose;
    const Axes frame = turned(pose.turn_deg);
    for (const std::size_t index : {0u, 1u}) {
        const double out = index == 0 ? 1.0 : -1.0;
        Leg& leg = s.legs[index];
        leg.hip_m = s.hips_m + s.pelvis * dvec3{out * b.hip_half_m, 0, 0};
        dvec3 thigh, shank;
        if (pose.posture == Posture::on_shoulders) {
            thigh = {out * 0.40, -0.10, 0.92};
            const double lacking_m = pose.seating.chest_m - 0.91 * b.thigh_m;
            const double forward = std::clamp(lacking_m / b.shank_m, 0.10, 0.85);
            shank = {-out * 0.04, -std::sqrt(1 - forward * forward), forward};
        } else if (out == pose.seating.side) {
            // One leg before whoever carries, one behind.
            thigh = {-out * 0.50, -0.42, 0.72};
            shank = {-out * 0.18, -0.97, 0.06};
        } else {
            thigh = {-out * 0.10, -0.62, -0.75};
            shank = {out * 0.22, -0.95, -0.10};
        }
        thigh = frame * glm::normalize(thigh);
        shank = frame * glm::normalize(shank);
        leg.knee_m = leg.hip_m + thigh * b.thigh_m;
        leg.ankle_m = leg.knee_m + shank * b.shank_m;
        // Feet hang, a little pointed, towards where the knee looks.
        const dvec3 forward = glm::normalize(thigh - shank * glm::dot(thigh, shank));
        leg.toes = glm::normalize(forward + 0.45 * shank);
        leg.sole = glm::normalize(shank - leg.toes * glm::dot(shank, leg.toes));
    }
}

Carrying carry(const Person& carrier, const Person& child, double side) {
    const Skeleton s = skeleton(carrier);
    const double u = carrier.measures.stature_m;
    Person seated = child;
    Pose& pose = seated.pose;
    pose.turn_deg = carrier.pose.turn_deg;
    pose.holds = {};
    pose.arms = {};
    const bool on_hip = pose.posture == Posture::on_hip;
    pose.seating = {.hips_m = on_hip ? seat_on_hip_m(s, carrier, child, side)
                                     : seat_on_shoulders_m(s, carrier, child),
                    .side = side};
    if (!on_hip) {
        const dvec3 chest = on_the_chest(carrier, 0, 0.5, 0.85).at_m;
        pose.seating.chest_m =
            glm::dot(chest - pose.seating.hips_m, s.head[2]) + 0.034 * child.measures.stature_m;
    }
    const Skeleton c = skeleton(seated);
    const std::vector<Capsule> body = trunk_solids(carrier);
    const Axes frame = turned(carrier.pose.turn_deg);
    Carrying both;
    if (on_hip) {
        // The forearm goes under the child from behind and outside, the palm up.
        const dvec3 under = c.hips_m - dvec3{0, c.build.seat_to_hip_m + 0.026 * u, 0};
        both.holds[index_of(side)] = {.wrist_m =
                                          under + frame * dvec3{side * 0.020 * u, 0, -0.015 * u},
                                      .elbow = frame * dvec3{side * 1.0, -0.35, -0.9},
                                      .fingers = frame * dvec3{-side * 0.25, 0.10, 1},
                                      .palm = frame * dvec3{-side * 0.25, 1, 0}};
        // One small hand on the chest, the other behind the shoulder.
        const int near = static_cast<int>(index_of(side));
        for (const auto& [across, up] : {std::pair{0.15, 0.62}, {0.45, 0.68}, {0.70, 0.74}})
            if (!pose.holds[index_of(side)])
                pose.holds[index_of(side)] =
                    reach(seated, near, on_the_chest(carrier, near, across, up),
                          s.trunk * dvec3{-side, 0.4, 0}, body);
        pose.holds[1 - index_of(side)] =
            reach(seated, 1 - near, on_the_back(carrier, near, 0.55, 0.90),
                  s.trunk * dvec3{-side, 0.3, 0}, body);
    } else {
        for (const std::size_t i : {0u, 1u}) {
            const double out = i == 0 ? 1.0 : -1.0;
            const Leg& leg = c.legs[i];
            if (carrier.styling.headwear != Headwear::hat)
                pose.holds[i] =
                    reach(seated, static_cast<int>(i), on_the_head(s, carrier.measures, out),
                          s.head * dvec3{-out * 0.6, 0, 1}, {});
            const dvec3 shin = glm::mix(leg.knee_m, leg.ankle_m, 0.78);
            both.holds[i] = {.wrist_m =
                                 shin + frame * dvec3{out * 0.036 * u, -0.012 * u, 0.012 * u},
                             .elbow = frame * dvec3{out * 0.7, -1, -0.2},
                             .fingers = frame * dvec3{-out * 0.55, 0.55, 0.62},
                             .palm = frame * dvec3{-out * 0.8, 0, -0.6}};
        }
    }
    both.child = pose;
    return both;
}

}  // namespace backrow::figures
