#include "figures/clothes/garments.h"

#include "figures/body/trunk.h"
#include "figures/clothes/folds.h"

#include <glm/common.hpp>

#include <algorithm>
#include <cmath>

namespace backrow::figures {
namespace {

using glm::dvec3;
using shapes::Field;

/// How thick bare arms are above the elbow, in statures.
constexpr double biceps_share = 0.0265;

/// The part of a garment that is nearest to `own`, swollen by what a rounded corner with `other`
/// would add. It never follows the other part further than `most_m`.
double towards(double own, double other, double blend_m, double most_m) {
    return own - std::clamp(own - smooth_min(own, other, blend_m), 0.0, most_m);
}

/// How much the body lies below a limb beyond their seam.
double dive_m(const Seam& seam, const dvec3& p, double most_m) {
    return std::clamp(0.6 * seam.beyond_m(p), 0.0, most_m);
}

/// 0 for a leg below the trunk … 1 for a thigh straight before it.
double raised(const Skeleton& s, std::size_t side) {
    const dvec3 thigh = glm::normalize(s.legs[side].knee_m - s.legs[side].hip_m);
    // Who stands has the knees a little before the hips.
    return std::clamp((glm::dot(thigh, s.trunk[2]) - 0.15) / 0.85, 0.0, 1.0);
}

}  // namespace

bool has_short_sleeves(const Appearance& look) {
    return look.top == Top::tee || look.top == Top::dress;
}

bool is_tucked(const Appearance& look) {
    return look.bottom == Bottom::skirt && look.top != Top::jacket;
}

double cloth_of_trousers_m(const BodyMeasures& m) {
    return 0.006 * std::sqrt(m.stature_m / 1.7);
}

dvec3 trouser_hem_m(const Skeleton& s, const BodyMeasures& m, std::size_t side) {
    const Leg& leg = s.legs[side];
    const dvec3 down = glm::normalize(leg.ankle_m - leg.knee_m);
    // Feet have heels.
    return leg.ankle_m + (down * 0.018 - leg.toes * 0.007) * m.stature_m;
}

double cloth_of_top_m(const Appearance& look, const BodyMeasures& m) {
    const double thickness = look.top == Top::jacket   ? 0.012
                             : look.top == Top::jumper ? 0.009
                                                       : 0.006;
    return thickness * std::sqrt(m.stature_m / 1.7);
}

double hem_up_m(const Skeleton& s, const Appearance& look, const BodyMeasures& m,
                double around_rad) {
    const double u = m.stature_m;
    // Where one thigh alone is raised, it draws the whole hem up, but for stiff cloth.
    const double drawn_up = std::abs(raised(s, 0) - raised(s, 1));
    const double hangs = (look.top == Top::jacket ? -0.055 : glm::mix(-0.030, 0.006, drawn_up)) * u;
    // Nothing hangs through the seat.
    const double on_seat = s.seat_m + 0.004 * u - s.hips_m.y;
    // Thighs are half as thick as this is high above the joints.
    const double on_lap = 0.050 * u;
    const double behind = std::max(hangs, on_seat);
    const double left = glm::smoothstep(-0.6, 0.6, std::sin(around_rad));
    const double lap = glm::mix(raised(s, 1), raised(s, 0), left);
    const double before = glm::smoothstep(-0.75, 0.55, std::cos(around_rad));
    return glm::mix(behind, std::max(behind, on_lap), lap * before);
}

double belt_up_m(const Appearance& look, const BodyMeasures& m) {
    return (is_tucked(look) ? 0.067 : 0.020) * m.stature_m;
}

RoundedCone sleeve_end(const Skeleton& s, const Appearance& look, const BodyMeasures& m,
                       std::size_t side) {
    const double cloth = cloth_of_top_m(look, m);
    if (!has_short_sleeves(look)) {
        RoundedCone end = part_of(forearm(s, m, side, cloth), 0, 0.95);
        // Cloth does not narrow as fast as an arm.
        end.to_radius_m += 0.0020 * m.stature_m;
        return end;
    }
    RoundedCone end = part_of(upper_arm(s, m, side, cloth), 0, 0.58);
    end.to_radius_m = (biceps_share * s.build.flesh + 0.004) * m.stature_m + cloth;
    return end;
}

TrouserFields trousers_of(const Skeleton& s, const Appearance& look, const BodyMeasures& m) {
    const double u = m.stature_m;
    const double cloth = cloth_of_trousers_m(m);
    const Trunk trunk{s, m, look.feminine, 0.0};
    const double waist = belt_up_m(look, m) + 0.010 * u;
    const auto seat_alone = [=](const dvec3& p) {
        const double height = trunk.local_m(p).y;
        const double whole = std::max(trunk.distance_m(p), -0.03 * u - height);
        return std::max(smooth_min(whole, seat_distance_m(s, m, p, cloth), 0.03 * u),
                        height - waist);
    };
    std::array<Field, 2> legs;
    for (const std::size_t side : {0u, 1u}) {
        const RoundedCone upper = thigh(s, m, side, cloth);
        RoundedCone lower = shank(s, m, side, cloth);
        // Below the knee cloth hangs from the calf, down over the shoe.
        lower.to_radius_m = 0.86 * lower.from_radius_m;
        lower.to_m = trouser_hem_m(s, m, side);
        legs[side] = [=](const dvec3& p) {
            return smooth_min(upper.distance_m(p), lower.distance_m(p), 0.02 * u);
        };
    }
    const auto joined = [=](double own, double other) {
        return towards(own, other, 0.035 * u, 0.012 * u);
    };
    // From the crest of the hip down to the crotch.
    std::array<Seam, 2> groins;
    for (const std::size_t side : {0u, 1u}) {
        const Leg& leg = s.legs[side];
        const dvec3 out = s.pelvis[0] * (side == 0 ? 1.0 : -1.0);
        groins[side] = {leg.hip_m,
                        glm::normalize(glm::normalize(leg.knee_m - leg.hip_m) + 0.7 * out)};
    }
    TrouserFields fields;
    fields.seat = [=](const dvec3& p) {
        const std::size_t side = trunk.local_m(p).x > 0 ? 0 : 1;
        const double whole =
            joined(seat_alone(p), legs[side](p)) + dive_m(groins[side], p, 0.008 * u);
        return std::max(whole, below_seat_m(s, p));
    };
    for (const std::size_t side : {0u, 1u})
        fields.legs[side] = [=, leg = legs[side]](const dvec3& p) {
            const double whole = joined(leg(p), seat_alone(p)) +
                                 std::clamp(-0.5 * groins[side].beyond_m(p), 0.0, 0.008 * u);
            return std::max({whole, below_seat_m(s, p), 0.002 - p.y});
        };
    return fields;
}

TopFields top_of(const Skeleton& s, const Appearance& look, const BodyMeasures& m,
                 const Field& seat) {
    const double u = m.stature_m;
    const double top = s.build.shoulder_up_m;
    const double cloth = cloth_of_top_m(look, m);
    const bool tucked = is_tucked(look);
    const double belt = belt_up_m(look, m);
    // A dress is sewn to its skirt: out of sight below the seam alone.
    const bool sewn = look.top == Top::dress;
    const double waist = skirt_top_up_m(s, look, m, 0);
    const double tilt = skirt_top_up_m(s, look, m, 1) - waist;
    const double drawn_from = (sewn ? -0.022 : -0.010) * u, drawn_to = (sewn ? -0.010 : 0.008) * u;
    // What is not tucked in, a jacket above all, does not cling to the waist.
    const bool jacket = look.top == Top::jacket;
    const Trunk trunk{s, m, look.feminine, cloth, (jacket ? 0.007 : tucked ? 0.0 : 0.0045) * u};
    const double hip_blend = (tucked ? 0.030 : 0.012) * u;
    const TrunkFolds folds{look, u, top, belt};
    // How far over what is worn below it hangs, and how far along raised thighs. A skirt is wider
    // than what it covers.
    const double lap = std::max(raised(s, 0), raised(s, 1));
    const double forward = glm::mix(0.20, 0.075, glm::smoothstep(0.0, 0.3, lap)) * u;
    const double over = (look.bottom == Bottom::skirt ? 0.006 : 0.003) * u;
    const double falls_from_m = -0.012 * u;
    std::array<RoundedCone, 2> collar_bones;
    std::array<Field, 2> arms;
    std::array<Seam, 2> armholes;
    for (const std::size_t side : {0u, 1u}) {
        collar_bones[side] = collar_bone(s, m, side, cloth);
        const RoundedCone end = sleeve_end(s, look, m, side);
        const RoundedCone drawn_out =
            part_of(end, 0, 1 + 0.03 * u / glm::distance(end.from_m, end.to_m));
        const RoundedCone upper = upper_arm(s, m, side, cloth);
        const RoundedCone muscle = deltoid(s, m, side, cloth);
        // The sleeve's head, hung from the point of the shoulder.
        const RoundedCone& bone = collar_bones[side];
        const RoundedCone head{bone.to_m, glm::mix(muscle.from_m, upper.from_m, 0.5),
                               bone.to_radius_m, 0.7 * muscle.from_radius_m};
        arms[side] = [=](const dvec3& p) {
            const double arm =
                smooth_min(smooth_min(upper.distance_m(p), drawn_out.distance_m(p), 0.012 * u),
                           muscle.distance_m(p), 1.15 * muscle.from_radius_m);
            return smooth_min(arm, head.distance_m(p), 0.02 * u);
        };
        const dvec3 out = s.trunk[0] * (side == 0 ? 1.0 : -1.0);
        armholes[side] = {s.arms[side].shoulder_m + s.trunk[1] * (0.015 * u) - out * (0.002 * u),
                          glm::normalize(out + 0.35 * upper.along())};
    }
    const auto body_alone = [=](const dvec3& p) {
        const dvec3 local = trunk.local_m(p);
        // Below the hips what is not tucked in falls straight.
        const dvec3 hung = tucked ? p : p + s.trunk[1] * std::max(0.0, falls_from_m - local.y);
        double whole = std::max(trunk.distance_m(hung), local.y - top - 0.020 * u);
        if (local.y < 0.45 * top) {
            whole = std::max(smooth_min(whole,
                                        seat_distance_m(s, m, hung, tucked ? 1.5 * cloth : cloth),
                                        hip_blend),
                             below_seat_m(s, p));
            // Inside the waistband cloth is drawn in; else it hangs over what is worn beneath, but
            // not along the thighs.
            if (tucked)
                whole +=
                    0.011 * u *
                    (1 - glm::smoothstep(drawn_from, drawn_to, local.y - waist - tilt * local.z));
            else
                whole = smooth_min(whole, std::max(seat(p) - 0.7 * cloth - over, local.z - forward),
                                   0.6 * hip_blend);
        }
        if (local.y > 0.7 * top)
            for (const RoundedCone& bone : collar_bones)
                whole = smooth_min(whole, bone.distance_m(p), 0.035 * u);
        if (std::abs(whole) < 0.03 * u)
            whole -= folds.out_m(local.y, std::atan2(local.x, local.z));
        return whole;
    };
    // Round the shoulder trunk and sleeve are one surface, as cloth bridges the hollow between
    // chest and arm; the trunk dives only where the sleeve already lies over it. Lower down sleeves
    // lie apart from the ribs.
    // On top of the shoulder there is no hollow, and a swollen ridge would look padded.
    const auto shoulder_blend = [=](double height) {
        return glm::mix(0.036, 0.010, glm::smoothstep(top - 0.015 * u, top + 0.015 * u, height)) *
               u;
    };
    std::array<Seam, 2> hidden = armholes;
    for (Seam& seam : hidden)
        seam.at_m += seam.across * (0.002 * u);
    const auto joining = [=](double height) {
        return glm::smoothstep(0.62 * top, 0.92 * top, height);
    };
    TopFields fields;
    fields.armholes = armholes;
    fields.body = [=](const dvec3& p) {
        const dvec3 local = trunk.local_m(p);
        const std::size_t side = local.x > 0 ? 0 : 1;
        const double own = body_alone(p), near = joining(local.y);
        return near > 0 ? towards(own, arms[side](p), shoulder_blend(local.y), 0.024 * u * near) +
                              dive_m(hidden[side], p, 0.012 * u * glm::smoothstep(0.0, 0.5, near))
                        : own;
    };
    for (const std::size_t side : {0u, 1u})
        fields.sleeves[side] = [=, arm = arms[side], seam = armholes[side]](const dvec3& p) {
            // Beyond the seam the join must fade, or it would swell the outside of the shoulder.
            const double near = joining(trunk.local_m(p).y) *
                                (1 - glm::smoothstep(0.016 * u, 0.042 * u, seam.beyond_m(p)));
            const double own = arm(p);
            return near > 0 ? towards(own, body_alone(p), shoulder_blend(trunk.local_m(p).y),
                                      0.024 * u * near)
                            : own;
        };
    return fields;
}

}  // namespace backrow::figures
