#include "figures/clothes/garments.h"

#include "figures/body/trunk.h"

#include <glm/common.hpp>

#include <algorithm>
#include <cmath>

namespace backrow::figures {
namespace {

using glm::dvec3;
using shapes::Field;

/// Cloth drawn tight round two limbs side by side, as over a lap: what lies between them is
/// spanned.
struct Sheath {
    RoundedCone left, right;
    double sag_m;  ///< Half way from limb to limb.

    [[nodiscard]] double distance_m(const dvec3& p) const {
        const dvec3 from = (left.from_m + right.from_m) / 2.0;
        const dvec3 bone = (left.to_m + right.to_m) / 2.0 - from;
        const double t = std::clamp(glm::dot(p - from, bone) / glm::dot(bone, bone), 0.0, 1.0);
        const dvec3 aside = glm::mix(left.from_m - right.from_m, left.to_m - right.to_m, t) / 2.0;
        const dvec3 off = p - from - bone * t;
        // Where legs are crossed they meet in a point.
        const double square_m2 = std::max(1e-9, glm::dot(aside, aside));
        const double x = std::clamp(glm::dot(off, aside) / square_m2, -1.0, 1.0);
        const double radius_m = glm::mix(left.from_radius_m, left.to_radius_m, t);
        return glm::length(off - aside * x) - radius_m + sag_m * (1 - x * x);
    }
};

/// Over the thighs and, from the knees down, before and behind the shanks.
Field lap_of(const Skeleton& s, const BodyMeasures& m, double cloth) {
    const double u = m.stature_m;
    const double sag_m = 0.012 * u;
    const Sheath thighs{thigh(s, m, 0, 1.5 * cloth), thigh(s, m, 1, 1.5 * cloth), sag_m};
    Sheath shanks{shank(s, m, 0, 1.5 * cloth), shank(s, m, 1, 1.5 * cloth), sag_m};
    for (RoundedCone* limb : {&shanks.left, &shanks.right}) {
        // Below the knees it falls, no closer to the calves than to the knees.
        limb->from_radius_m = thighs.left.to_radius_m;
        limb->to_radius_m = limb->from_radius_m + 0.012 * u;
    }
    return [=](const dvec3& p) {
        return smooth_min(thighs.distance_m(p), shanks.distance_m(p), 0.012 * u);
    };
}

}  // namespace

double hanging_of_skirt(const Skeleton& s) {
    const dvec3 knees = (s.legs[0].knee_m + s.legs[1].knee_m) / 2.0;
    return std::clamp(glm::normalize(s.hips_m - knees).y, 0.0, 1.0);
}

double skirt_over_knees_m(const BodyMeasures& m) {
    return 0.060 * m.stature_m;
}

SkirtWaist skirt_waist(const Skeleton& s, const Appearance& look, const BodyMeasures& m) {
    const double u = m.stature_m;
    const double hanging = hanging_of_skirt(s);
    return {s.on_trunk({0, belt_up_m(look, m), -0.006 * u}),
            s.hips_m + s.pelvis[2] * (0.020 * u * (1 - hanging))};
}

double skirt_top_up_m(const Skeleton& s, const Appearance& look, const BodyMeasures& m,
                      double forward_m) {
    // The edge lies across the line from its middle to the lap.
    const auto [belt, lap] = skirt_waist(s, look, m);
    const dvec3 down = lap - belt;
    const double tilt = -glm::dot(down, s.trunk[2]) / glm::dot(down, s.trunk[1]);
    return belt_up_m(look, m) + tilt * (forward_m + 0.006 * m.stature_m);
}

Field skirt_of(const Skeleton& s, const Appearance& look, const BodyMeasures& m) {
    const double u = m.stature_m;
    const double cloth = cloth_of_trousers_m(m);
    // Over a blouse that is tucked in; under a jacket close to the body. A dress is of one piece.
    const double under_m = look.top == Top::dress ? cloth_of_top_m(look, m)
                           : is_tucked(look)      ? cloth_of_top_m(look, m) + 0.004 * u
                                                  : cloth;
    const Trunk trunk{s, m, look.feminine, under_m};
    std::array<RoundedCone, 2> thighs;
    const double hanging = hanging_of_skirt(s);
    const bool lies = hanging < skirt_lies_below;
    const Field lap = lap_of(s, m, cloth);
    for (const std::size_t side : {0u, 1u}) {
        thighs[side] = thigh(s, m, side, 1.5 * cloth);
        thighs[side].to_radius_m += 0.004 * u;
        thighs[side] = part_of(thighs[side], 0, 1 + 0.09 * u * hanging / s.build.thigh_m);
    }
    const Sheath hung{thighs[0], thighs[1], 0};
    const double belt = belt_up_m(look, m);
    return [=](const dvec3& p) {
        const double height = trunk.local_m(p).y;
        double whole = std::max(trunk.distance_m(p), -0.03 * u - height);
        whole = smooth_min(whole, seat_distance_m(s, m, p, cloth), 0.03 * u);
        whole = std::max({whole, height - belt - 0.03 * u, below_seat_m(s, p)});
        const double below = lies ? std::max(lap(p), below_seat_m(s, p)) : hung.distance_m(p);
        return smooth_min(whole, below, 0.03 * u);
    };
}

}  // namespace backrow::figures
