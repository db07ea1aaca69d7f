#include "figures/skeleton.h"

#include "figures/anthropometry.h"
#include "figures/head_frame.h"
#include "figures/name_hash.h"

#include "base/units.h"

#include <glm/geometric.hpp>

#include <algorithm>
#include <cmath>

namespace backrow::figures {
namespace {

using glm::dvec3;

constexpr double greatest_tilt_deg = 65.0;

/// + turns +z towards +x.
Axes turned(double deg) {
    const double a = rad_from_deg(deg);
    return {{std::cos(a), 0, -std::sin(a)}, {0, 1, 0}, {std::sin(a), 0, std::cos(a)}};
}

/// About the x axis; + tips the top forward.
Axes tipped(double rad) {
    return {{1, 0, 0}, {0, std::cos(rad), std::sin(rad)}, {0, -std::sin(rad), std::cos(rad)}};
}

/// The middle joint of two bones from `root` to `end`, on the side of `hint`; an end out of reach
/// is pulled in.
dvec3 bend(const dvec3& root, dvec3& end, double first_m, double second_m, const dvec3& hint) {
    const dvec3 line = end - root;
    const double length = glm::length(line);
    const double reach = std::clamp(length, std::abs(first_m - second_m) + 0.02 * first_m,
                                    0.999 * (first_m + second_m));
    const dvec3 along = line / length;
    end = root + along * reach;
    const double foot = (reach * reach + first_m * first_m - second_m * second_m) / (2 * reach);
    const double off = std::sqrt(std::max(0.0, first_m * first_m - foot * foot));
    dvec3 side = hint - along * glm::dot(hint, along);
    side = glm::normalize(side);
    return root + along * foot + side * off;
}

/// Where the trunk is before any lean, and how it is tipped.
struct Stance {
    dvec3 hips_m;
    double tip_rad = 0;
};

Stance stance(const Build& b, Posture posture, double stature_m, double seat_m) {
    switch (posture) {
    case Posture::standing:
        return {{0, b.hip_height_m, 0}};
    case Posture::seated:
        return {{0, seat_m + b.seat_to_hip_m, 0}};
    case Posture::kneeling:
        return {{0, 0.036 * stature_m + 0.985 * b.thigh_m, 0}};
    case Posture::crouching: {
        const double back_m = 0.13 * stature_m;
        return {{0, 0.36 * b.hip_height_m, -back_m},
                std::asin(std::min(0.5, (back_m + 0.02 * stature_m) / b.trunk_m))};
    }
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

void place_legs(Skeleton& s, const Person& person, const Axes& turn) {
    const Build& b = s.build;
    const double stature = person.measures.stature_m;
    for (int side = 0; side < 2; ++side) {
        const double out = side == 0 ? 1.0 : -1.0;
        Leg& leg = s.legs[static_cast<std::size_t>(side)];
        leg.hip_m = s.hips_m + s.pelvis * dvec3{out * b.hip_half_m, 0, 0};
        const dvec3 ground = dvec3{s.hips_m.x, 0, s.hips_m.z};
        dvec3 ankle{out * 0.056 * stature, b.ankle_height_m, 0};
        dvec3 hint{out * 0.12, 0.0, 1.0};
        double splay_deg = out * 9;
        leg.sole = {0, -1, 0};
        dvec3 toes{0, 0, 1};
        switch (person.pose.posture) {
        case Posture::standing:
            break;
        case Posture::seated:
            ankle = {out * 0.06 * stature, b.ankle_height_m, 0.97 * b.thigh_m};
            hint = {out * 0.1, 1, 1};
            break;
        case Posture::kneeling:
            if (side == 0) {
                ankle = {0.066 * stature, b.ankle_height_m, 0.93 * b.thigh_m};
                hint = {0.1, 1, 1};
            } else {
                ankle = {-0.05 * stature, 0.034 * stature, -0.985 * b.shank_m};
                hint = {-0.08, -0.25, 1};
                splay_deg = 0;
                // The foot lies on its back, the sole up.
                toes = glm::normalize(dvec3{0, -0.36, -1.0});
                leg.sole = glm::normalize(dvec3{0, 1.0, -0.36});
            }
            break;
        case Posture::crouching:
            ankle = {out * 0.075 * stature, b.ankle_height_m, 0.125 * stature};
            hint = {out * 0.3, 0.8, 1};
            splay_deg = out * 16;
            break;
        }
        leg.ankle_m = ground + turn * ankle;
        leg.knee_m = bend(leg.hip_m, leg.ankle_m, b.thigh_m, b.shank_m, turn * hint);
        const Axes foot = turn * turned(splay_deg);
        leg.toes = foot * toes;
        leg.sole = foot * leg.sole;
    }
}

void place_arms(Skeleton& s, const Person& person, const Axes& turn) {
    const Build& b = s.build;
    const double stature = person.measures.stature_m;
    const int manner = Draws{person.name, "arms"}.one_of(5);
    const dvec3 up{0, 1, 0};
    for (int side = 0; side < 2; ++side) {
        const double out = side == 0 ? 1.0 : -1.0;
        Arm& arm = s.arms[static_cast<std::size_t>(side)];
        const Leg& leg = s.legs[static_cast<std::size_t>(side)];
        const double reach = b.upper_arm_m + b.forearm_m;
        arm.shoulder_m = s.on_trunk({out * b.shoulder_half_m, b.shoulder_up_m, -0.006 * stature});
        dvec3 hint = s.trunk * dvec3{out * 0.22, 0, -1};
        dvec3 fingers{0, -1, 0.08};
        dvec3 palm{-out, 0, -0.35};
        const auto rest_on_thigh = [&](double along, double inwards) {
            const dvec3 thigh = leg.knee_m - leg.hip_m;
            arm.wrist_m = leg.hip_m + thigh * along + up * (0.058 * stature * b.flesh) -
                          turn * dvec3{out * inwards * stature, 0, 0};
            hint = turn * dvec3{out * 0.55, -0.5, -0.8};
            fingers = glm::transpose(turn) * glm::normalize(thigh) + dvec3{-out * 0.35, -0.1, 0};
            palm = {0, -1, 0};
        };
        switch (person.pose.posture) {
        case Posture::standing:
            if (manner == 0) {  // Hands folded in front.
                arm.wrist_m = s.hips_m +
                              turn * dvec3{out * 0.045 * stature, 0.002 * stature, 0.098 * stature};
                hint = turn * dvec3{out * 0.4, 0, -1};
                fingers = {-out, -0.75, 0.18};
                palm = {-out * 0.25, -0.2, -1};
            } else if (manner == 1) {  // Hanging, elbows a little bent.
                arm.wrist_m = arm.shoulder_m +
                              turn * dvec3{out * 0.010 * stature, -0.95 * reach, 0.060 * stature};
                hint = turn * dvec3{out * 0.5, 0, -1};
            } else {
                arm.wrist_m = arm.shoulder_m +
                              turn * dvec3{out * 0.012 * stature, -0.985 * reach, 0.035 * stature};
            }
            break;
        case Posture::seated:
            rest_on_thigh(0.66, 0.0);
            break;
        case Posture::kneeling:
            if (side == 0) {
                rest_on_thigh(0.72, 0.0);
            } else {
                arm.wrist_m = leg.hip_m + (leg.knee_m - leg.hip_m) * 0.35 +
                              turn * dvec3{-0.03 * stature, 0, 0.058 * stature * b.flesh};
                hint = turn * dvec3{-0.5, 0, -1};
                fingers = {0.25, -1, 0.05};
                palm = {0.15, -0.1, -1};
            }
            break;
        case Posture::crouching:
            rest_on_thigh(0.86, 0.0);
            break;
        }
        arm.elbow_m = bend(arm.shoulder_m, arm.wrist_m, b.upper_arm_m, b.forearm_m, hint);
        arm.fingers = glm::normalize(turn * fingers);
        const dvec3 out_of_palm = turn * palm;
        arm.palm = glm::normalize(out_of_palm - arm.fingers * glm::dot(out_of_palm, arm.fingers));
    }
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
    if (person.pose.posture != Posture::seated)
        return 0;
    const Build b = build_of(person.measures);
    // The hollow of the knee lies this far below the joint.
    return b.shank_m + b.ankle_height_m - 0.03 * person.measures.stature_m;
}

Skeleton skeleton(const Person& person) {
    Skeleton s;
    s.build = build_of(person.measures);
    const Axes turn = turned(person.pose.turn_deg);
    const Stance start =
        stance(s.build, person.pose.posture, person.measures.stature_m, seat_height_m(person));
    s.hips_m = turn * start.hips_m;
    s.pelvis = turn * tipped(start.tip_rad / 2);
    s.trunk = leant(turn * tipped(start.tip_rad), s.build.trunk_m, person.pose.lean_m);
    s.head_m = s.on_trunk({0, s.build.trunk_m, 0});
    s.head = turned(person.pose.turn_deg + person.pose.head_turn_deg);
    place_legs(s, person, turn);
    place_arms(s, person, turn);
    return s;
}

}  // namespace backrow::figures
