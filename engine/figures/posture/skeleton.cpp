#include "figures/posture/skeleton.h"

#include "figures/head/head_frame.h"
#include "figures/measures/anthropometry.h"
#include "figures/posture/limbs.h"

#include "base/units.h"

#include <glm/geometric.hpp>

#include <algorithm>
#include <cmath>

namespace backrow::figures {
namespace {

using glm::dvec3;

constexpr double greatest_tilt_deg = 65.0;

/// About the x axis; + tips the top forward.
Axes tipped(double rad) {
    return {{1, 0, 0}, {0, std::cos(rad), std::sin(rad)}, {0, -std::sin(rad), std::cos(rad)}};
}

/// About the z axis; + tips the top towards +x.
Axes rolled(double rad) {
    return {{std::cos(rad), -std::sin(rad), 0}, {std::sin(rad), std::cos(rad), 0}, {0, 0, 1}};
}

/// Where the trunk is before any lean, and how it is tipped.
struct Stance {
    dvec3 hips_m;
    double tip_rad = 0;
};

Stance stance(const Build& b, const Pose& pose, double stature_m, double seat_m) {
    switch (pose.posture) {
    case Posture::standing:
        return {{0, b.hip_height_m, 0}};
    case Posture::seated:
    case Posture::on_step:
        return {{0, seat_m + b.seat_to_hip_m, 0}};
    case Posture::kneeling:
        return {{0, 0.036 * stature_m + 0.985 * b.thigh_m, 0}};
    case Posture::kneeling_both:
        return {{0, 0.0285 * stature_m + 0.985 * b.thigh_m, 0}};
    case Posture::on_ground:
        return {{0, b.seat_to_hip_m, 0}};
    case Posture::crouching: {
        const double back_m = 0.13 * stature_m;
        return {{0, 0.36 * b.hip_height_m, -back_m},
                std::asin(std::min(0.5, (back_m + 0.02 * stature_m) / b.trunk_m))};
    }
    case Posture::on_hip:
        return {pose.seating.hips_m};
    case Posture::on_shoulders:
        // Over the head in front of it.
        return {pose.seating.hips_m, 0.10};
    }
    return {};
}

/// The tilt that carries the head by −lean_m along z, turning the trunk about the x axis.
Axes leant(const Axes& trunk, double trunk_m, double lean_m) {
    const dvec3 head = trunk[1] * trunk_m;
    const double radius = std::hypot(head.y, head.z);
    const double before = std::asin(std::clamp(head.z / radius, -1.0, 1.0));
    const double limit = std::sin(rad_from_deg(greatest_tilt_deg));
    const double after = std::asin(std::clamp((head.z - lean_m) / radius, -limit, limit));
    return tipped(after - before) * trunk;
}

/// The same for the tilt that carries the head by lean_m along x, about the z axis.
Axes leant_sideways(const Axes& trunk, double trunk_m, double lean_m) {
    const dvec3 head = trunk[1] * trunk_m;
    const double radius = std::hypot(head.x, head.y);
    const double farthest_m = trunk_m * std::sin(rad_from_deg(greatest_tilt_deg));
    const double limit =
        std::sqrt(std::max(0.0, farthest_m * farthest_m - head.z * head.z)) / radius;
    const double before = std::asin(std::clamp(head.x / radius, -1.0, 1.0));
    const double after = std::asin(std::clamp((head.x + lean_m) / radius, -limit, limit));
    return rolled(after - before) * trunk;
}

/// Who stands on one leg has the hips over it, the free hip lower; the back bends to make up for
/// it, so that the head stays where it was measured. By eye.
void shift_weight(Skeleton& s, int leg, double stature_m) {
    constexpr double pelvis_roll_rad = 0.07;
    const double over_leg_m = 0.015 * stature_m;
    const double sunk_m = s.build.hip_half_m * std::sin(pelvis_roll_rad);
    const dvec3 head = s.hips_m + dvec3{0, s.build.trunk_m, 0};
    s.hips_m += dvec3{leg * over_leg_m, -sunk_m, 0};
    const dvec3 back = head - s.hips_m;
    const double longer_m = glm::length(back) - s.build.trunk_m;
    s.build.trunk_m += longer_m;
    s.build.shoulder_up_m += longer_m;
    s.pelvis = rolled(-leg * pelvis_roll_rad);
    s.trunk = rolled(std::atan2(back.x, back.y));
}

}  // namespace

Build build_of(const BodyMeasures& m) {
    Build b;
    b.seat_to_hip_m = 0.047 * m.stature_m;
    b.hip_height_m = m.stature_m - m.sitting_height_m + b.seat_to_hip_m;
    const HeadFrame frame{m};
    const double ears_below_eyes =
        -frame.head_from_model({0, 0, 0}).y + frame.head_from_model({0, model::ear_y, 0}).y;
    b.trunk_m = m.eye_height_m + ears_below_eyes - b.hip_height_m;
    // The shoulder joints lie a neck below the chin.
    b.shoulder_up_m = m.stature_m - m.head_height_m - 0.063 * m.stature_m - b.hip_height_m;
    b.shoulder_half_m = m.shoulder_breadth_m / 2 - 0.015 * m.stature_m;
    b.hip_half_m = 0.050 * m.stature_m;
    b.ankle_height_m = ankle_share_of_leg * b.hip_height_m;
    b.shank_m = knee_share_of_leg * b.hip_height_m - b.ankle_height_m;
    b.thigh_m = (1 - knee_share_of_leg) * b.hip_height_m;
    b.upper_arm_m = upper_arm_share * m.stature_m;
    b.forearm_m = forearm_share * m.stature_m;
    b.hand_m = hand_share * m.stature_m;
    b.foot_m = foot_length_share * m.stature_m;
    b.flesh = (m.bideltoid_breadth_m / m.stature_m) /
              ((men.bideltoid_breadth_m[1] + women.bideltoid_breadth_m[1]) /
               (men.stature_m[1] + women.stature_m[1]));
    b.childhood = std::clamp((grown_up_years - 2 - m.age_years) / (grown_up_years - 4), 0.0, 1.0);
    return b;
}

double seat_height_m(const Person& person) {
    return person.pose.posture == Posture::seated ? highest_step_m(person.measures) : 0;
}

double highest_step_m(const BodyMeasures& measures) {
    const Build b = build_of(measures);
    // The hollow of the knee lies this far below the joint.
    return b.shank_m + b.ankle_height_m - 0.03 * measures.stature_m;
}

Skeleton skeleton(const Person& person) {
    Skeleton s;
    s.build = build_of(person.measures);
    const Pose& pose = person.pose;
    const Axes turn = turned(pose.turn_deg + twist_deg(pose));
    const double stature_m = person.measures.stature_m;
    s.seat_m = pose.posture == Posture::on_step ? pose.step_m : seat_height_m(person);
    const Stance start = stance(s.build, pose, stature_m, s.seat_m);
    s.hips_m = start.hips_m;
    s.pelvis = tipped(start.tip_rad / 2);
    s.trunk = tipped(start.tip_rad);
    if (const int leg = weight_leg(person); leg != 0)
        shift_weight(s, leg, stature_m);
    if (!is_carried(pose.posture))
        s.hips_m = turn * s.hips_m;
    s.pelvis = turn * s.pelvis;
    s.trunk = leant(turn * s.trunk, s.build.trunk_m, pose.lean_m);
    s.trunk = leant_sideways(s.trunk, s.build.trunk_m, pose.lean_sideways_m);
    s.head_m = s.on_trunk({0, s.build.trunk_m, 0});
    s.head = turned(pose.turn_deg + pose.head_turn_deg);
    place_legs(s, person, turn);
    place_arms(s, person, turn);
    return s;
}

}  // namespace backrow::figures
