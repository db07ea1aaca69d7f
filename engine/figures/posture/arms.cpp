#include "figures/clothes/garments.h"
#include "figures/name_hash.h"
#include "figures/posture/limbs.h"

#include <glm/common.hpp>
#include <glm/geometric.hpp>
#include <glm/matrix.hpp>

#include <algorithm>

namespace backrow::figures {
namespace {

using glm::dvec3;

/// One side of a body whose trunk and legs are in place; out is +1 on the left.
struct Side {
    const Skeleton& s;
    const Person& person;
    const Axes& turn;
    int index;
    double out;
    dvec3 shoulder_m;

    [[nodiscard]] double u() const { return person.measures.stature_m; }
    [[nodiscard]] double cloth_m() const {
        return cloth_of_top_m(appearance(person), person.measures);
    }
    [[nodiscard]] const Leg& leg() const { return s.legs[static_cast<std::size_t>(index)]; }
};

Arms manner_of(const Person& person) {
    if (person.pose.arms)
        return *person.pose.arms;
    const int manner = Draws{person.name, "arms"}.one_of(6);
    return manner == 0 ? Arms::folded : manner == 1 ? Arms::behind : Arms::down;
}

Hold hanging(const Side& a) {
    const double reach_m = a.s.build.upper_arm_m + a.s.build.forearm_m;
    // Some let their elbows bend a little.
    const bool loose = Draws{a.person.name, "elbows"}.share() < 0.3;
    const dvec3 down = loose ? dvec3{a.out * 0.010 * a.u(), -0.95 * reach_m, 0.060 * a.u()}
                             : dvec3{a.out * 0.012 * a.u(), -0.985 * reach_m, 0.035 * a.u()};
    const dvec3 elbow =
        loose ? a.turn * dvec3{a.out * 0.5, 0, -1} : a.s.trunk * dvec3{a.out * 0.22, 0, -1};
    dvec3 wrist = a.shoulder_m + a.turn * down;
    if (a.person.pose.lean_sideways_m != 0) {
        // An arm that the trunk leans over the hip hangs beside it all the same.
        const dvec3 aside = a.turn[0] * a.out;
        const double off_m = glm::dot(wrist - a.s.hips_m, aside);
        const double least_m = a.s.build.shoulder_half_m + 0.010 * a.u();
        wrist += aside * std::max(0.0, least_m - off_m);
    }
    return {wrist, elbow, a.turn * dvec3{0, -1, 0.08}, a.turn * dvec3{-a.out, 0, -0.35}};
}

Hold folded_in_front(const Side& a) {
    // Off the belly, which is a little flatter than the chest.
    const double front_m = 0.47 * a.person.measures.chest_depth_m + a.cloth_m() + 0.021 * a.u();
    return {a.s.hips_m + a.turn * dvec3{a.out * 0.045 * a.u(), 0.002 * a.u(), front_m},
            a.turn * dvec3{a.out * 0.4, 0, -1}, a.turn * dvec3{-a.out, -0.75, 0.18},
            a.turn * dvec3{-a.out * 0.25, -0.2, -1}};
}

Hold behind_the_back(const Side& a) {
    const double back_m =
        a.person.measures.chest_depth_m / 2 + (a.index == 0 ? 0.042 : 0.026) * a.u();
    return {a.s.on_trunk({a.out * 0.030 * a.u(), 0.012 * a.u(), -back_m}),
            a.s.trunk * dvec3{a.out * 0.9, 0, -0.8}, a.s.trunk * dvec3{-a.out, -0.6, 0},
            a.s.trunk * dvec3{0, 0.1, -1}};
}

/// The left forearm lies over the right one, its hand on the other arm; the right hand goes under.
/// Each lies on what is behind it: the chest with its cloth, the forearm as thick as forearms are.
Hold crossed_on_chest(const Side& a) {
    const bool over = a.index == 0;
    const double front_m =
        a.person.measures.chest_depth_m / 2 + a.cloth_m() + (over ? 0.040 : 0.019) * a.u();
    return {a.s.on_trunk({-a.out * (over ? 0.018 : 0.024) * a.u(),
                          (over ? 0.585 : 0.560) * a.s.build.shoulder_up_m, front_m}),
            a.s.trunk * dvec3{a.out * 0.75, -1.0, -0.25},
            a.s.trunk * (over ? dvec3{-a.out, 0.16, -0.46} : dvec3{-a.out, 0.10, -0.70}),
            a.s.trunk * (over ? dvec3{-a.out * 0.3, 0, -1} : dvec3{a.out * 0.8, 0, -0.6})};
}

Hold on_thigh(const Side& a, double along, double droop = -0.1) {
    const dvec3 thigh = a.leg().knee_m - a.leg().hip_m;
    const dvec3 up{0, 1, 0};
    return {a.leg().hip_m + thigh * along + up * (0.058 * a.u() * a.s.build.flesh),
            a.turn * dvec3{a.out * 0.55, -0.5, -0.8},
            glm::normalize(thigh) + a.turn * dvec3{-a.out * 0.35, droop, 0},
            a.turn * dvec3{0, -1, 0}};
}

/// Over a knee that is drawn up the hand lies on the thigh's end and follows it down.
Hold on_raised_knee(const Side& a) {
    const dvec3 thigh = glm::normalize(a.leg().knee_m - a.leg().hip_m);
    const dvec3 forward = a.turn[2];
    // Off the thigh, at right angles to it.
    const dvec3 off = glm::normalize(dvec3{0, 1, 0} - thigh * thigh.y);
    const dvec3 level = glm::normalize(glm::mix(thigh, forward, 0.5));
    return {a.leg().knee_m - thigh * (0.085 * a.u()) + off * (0.056 * a.u() * a.s.build.flesh),
            a.turn * dvec3{a.out * 0.30, -0.6, -0.8},
            level + a.turn * dvec3{-a.out * 0.25, -0.30, 0}, -off};
}

/// The hand of the side that kneels hangs before the thigh.
Hold before_thigh(const Side& a) {
    return {a.leg().hip_m + (a.leg().knee_m - a.leg().hip_m) * 0.35 +
                a.turn * dvec3{-0.03 * a.u(), 0, 0.058 * a.u() * a.s.build.flesh},
            a.turn * dvec3{-0.5, 0, -1}, a.turn * dvec3{0.25, -1, 0.05},
            a.turn * dvec3{0.15, -0.1, -1}};
}

Hold hold_of(const Side& a) {
    if (const auto& hold = a.person.pose.holds[static_cast<std::size_t>(a.index)])
        return *hold;
    if (a.person.pose.arms == Arms::crossed)
        return crossed_on_chest(a);
    const Arms manner = manner_of(a.person);
    switch (a.person.pose.posture) {
    case Posture::standing:
    case Posture::kneeling_both:
        return manner == Arms::folded    ? folded_in_front(a)
               : manner == Arms::behind  ? behind_the_back(a)
               : manner == Arms::crossed ? crossed_on_chest(a)
                                         : hanging(a);
    case Posture::seated:
        return on_thigh(a, 0.66);
    case Posture::kneeling:
        return a.index == 0 ? on_thigh(a, 0.72) : before_thigh(a);
    case Posture::crouching:
        return on_thigh(a, 0.86);
    case Posture::on_ground:
        return on_thigh(a, 0.66, -0.30);
    case Posture::on_step:
        return on_raised_knee(a);
    case Posture::on_hip:
    case Posture::on_shoulders:
        return on_thigh(a, 0.60);
    }
    return hanging(a);
}

}  // namespace

void place_arms(Skeleton& s, const Person& person, const Axes& turn) {
    const Build& b = s.build;
    for (const int index : {0, 1}) {
        const double out = index == 0 ? 1.0 : -1.0;
        Arm& arm = s.arms[static_cast<std::size_t>(index)];
        arm.shoulder_m = s.on_trunk(
            {out * b.shoulder_half_m, b.shoulder_up_m, -0.006 * person.measures.stature_m});
        const Side side{s, person, turn, index, out, arm.shoulder_m};
        const Hold hold = hold_of(side);
        arm.wrist_m = hold.wrist_m;
        arm.elbow_m = bend(arm.shoulder_m, arm.wrist_m, b.upper_arm_m, b.forearm_m, hold.elbow);
        arm.fingers = glm::normalize(hold.fingers);
        arm.palm = glm::normalize(hold.palm - arm.fingers * glm::dot(hold.palm, arm.fingers));
    }
}

}  // namespace backrow::figures
