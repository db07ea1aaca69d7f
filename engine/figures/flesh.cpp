#include "figures/flesh.h"

#include "figures/smooth_curve.h"

#include <glm/common.hpp>
#include <glm/matrix.hpp>

#include <array>
#include <initializer_list>
#include <utility>

namespace backrow::figures {
namespace {

using glm::dvec3;

/// The trunk as a stack of rounded ovals, in its own axes from the middle of the hips.
class Trunk {
public:
    Trunk(const Skeleton& s, const BodyMeasures& m, bool feminine, double cloth_m)
        : origin_{s.hips_m}, local_from_figure_{glm::transpose(s.trunk)},
          breadth_{heights(s, m), breadths(s, m, feminine, cloth_m)},
          depth_{heights(s, m), depths(m, feminine, cloth_m)}, middle_{heights(s, m),
                                                                       middles(m, feminine)} {}

    [[nodiscard]] double distance_m(const dvec3& figure) const {
        const dvec3 p = local_from_figure_ * (figure - origin_);
        const double half_breadth = breadth_.held(p.y);
        const double half_depth = depth_.held(p.y);
        // Between an oval and a box: ribs and shoulder blades are flatter than an ellipse.
        const double x = p.x / half_breadth;
        const double z = (p.z - middle_.held(p.y)) / half_depth;
        const double x2 = x * x, z2 = z * z;
        const double radius = std::sqrt(std::sqrt(x2 * x2 + z2 * z2 + 1.1 * x2 * z2));
        return (radius - 1) * std::min(half_breadth, half_depth);
    }

    [[nodiscard]] double height_m(const dvec3& figure) const {
        return (local_from_figure_ * (figure - origin_)).y;
    }

    [[nodiscard]] double forward_m(const dvec3& figure) const {
        return (local_from_figure_ * (figure - origin_)).z;
    }

private:
    static constexpr std::size_t rings = 7;
    using Ring = std::array<double, rings>;

    static Ring heights(const Skeleton& s, const BodyMeasures& m) {
        const double top = s.build.shoulder_up_m;
        const double u = m.stature_m;
        return {-0.075 * u, -0.005 * u, 0.36 * top, 0.62 * top, 0.82 * top, top, top + 0.022 * u};
    }
    static Ring breadths(const Skeleton& s, const BodyMeasures& m, bool feminine, double cloth_m) {
        const double u = m.stature_m * s.build.flesh;
        const double grown = 1 - s.build.childhood;
        const double waist = (feminine ? -0.005 : 0.005) * grown;
        const double hip = (feminine ? 0.005 : -0.002) * grown;
        Ring r{0.086 + hip, 0.093 + hip, 0.081 + waist, 0.088, 0.093, 0.075, 0.030};
        for (double& value : r)
            value = value * u + cloth_m;
        return r;
    }
    static Ring depths(const BodyMeasures& m, bool feminine, double cloth_m) {
        const double chest = m.chest_depth_m / 2;
        const double belly = feminine ? 0.84 : 0.90;
        return {0.88 * chest + cloth_m, 0.94 * chest + cloth_m, belly * chest + cloth_m,
                0.96 * chest + cloth_m, 0.90 * chest + cloth_m, 0.60 * chest + cloth_m,
                0.034 * m.stature_m};
    }
    static Ring middles(const BodyMeasures& m, bool feminine) {
        const double u = m.stature_m;
        const double bust = feminine && m.age_years > 13 ? 0.010 : 0.004;
        return {-0.012 * u, -0.012 * u, 0.002 * u, bust * u, 0.002 * u, -0.010 * u, -0.012 * u};
    }

    dvec3 origin_;
    Axes local_from_figure_;
    SmoothCurve<rings> breadth_, depth_, middle_;
};

Covering around(shapes::Field field, std::initializer_list<RoundedCone> limbs, double margin_m,
                std::vector<Piece> pieces = {}) {
    dvec3 least{1e9}, most{-1e9};
    for (const RoundedCone& limb : limbs) {
        least = glm::min(least,
                         glm::min(limb.from_m - limb.from_radius_m, limb.to_m - limb.to_radius_m));
        most = glm::max(most,
                        glm::max(limb.from_m + limb.from_radius_m, limb.to_m + limb.to_radius_m));
    }
    return {std::move(field), least - margin_m, most + margin_m, std::move(pieces)};
}

/// Cloth gathers in shallow waves; height_m runs along the limb or trunk, around_rad about it.
double folds(double height_m, double around_rad, double depth_m) {
    return depth_m * (std::sin(height_m * 62 + 1.7 * std::sin(around_rad * 2 + 0.6)) +
                      0.6 * std::sin(height_m * 37 - 2.3 * std::cos(around_rad + 1.1)));
}

RoundedCone upper_arm(const Skeleton& s, const BodyMeasures& m, std::size_t side, double cloth_m) {
    const double u = m.stature_m * s.build.flesh;
    const Arm& arm = s.arms[side];
    const double deltoid = m.bideltoid_breadth_m / 2 - s.build.shoulder_half_m;
    // The muscle is fullest a hand's breadth below the top of the shoulder.
    const dvec3 fullest = arm.shoulder_m - s.trunk[1] * (0.016 * m.stature_m);
    return {fullest, arm.elbow_m, 0.60 * deltoid + cloth_m / 2, 0.0235 * u + cloth_m};
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

double around_of(const Skeleton& s, const dvec3& p) {
    const dvec3 local = glm::transpose(s.trunk) * (p - s.hips_m);
    return std::atan2(local.x, local.z);
}

double neck_radius_m(const Skeleton& s, const Appearance& look, const BodyMeasures& m) {
    // Necks follow heads more than shoulders: a child's is thin.
    const double share = glm::mix(look.feminine ? 0.305 : 0.345, 0.300, s.build.childhood);
    return share * m.head_breadth_m;
}

double cloth_m(const Appearance& look, const BodyMeasures& m) {
    const double thickness = look.top == Top::jacket   ? 0.011
                             : look.top == Top::jumper ? 0.008
                                                       : 0.005;
    return thickness * std::sqrt(m.stature_m / 1.7);
}

/// Buttocks and belly below the waist, which the trunk alone would leave flat when it bends.
double seat_distance_m(const Skeleton& s, const BodyMeasures& m, const dvec3& p, double cloth) {
    const double u = m.stature_m;
    const dvec3 local =
        glm::transpose(s.pelvis) * (p - s.hips_m) - dvec3{0, -0.012 * u, -0.012 * u};
    const dvec3 radii =
        dvec3{0.088 * u * s.build.flesh, 0.066 * u, 0.068 * u * s.build.flesh} + cloth;
    const dvec3 q = local / radii;
    return (glm::length(q) - 1) * radii.z;
}

/// The same taper, carried on by extra_m.
RoundedCone drawn_out(RoundedCone limb, double extra_m) {
    const double share = 1 + extra_m / glm::distance(limb.from_m, limb.to_m);
    limb.to_m = glm::mix(limb.from_m, limb.to_m, share);
    limb.to_radius_m = glm::mix(limb.from_radius_m, limb.to_radius_m, share);
    return limb;
}

/// How thick bare arms are above the elbow, in statures.
constexpr double biceps_share = 0.0265;

}  // namespace

double leaves_at(const shapes::Field& body, const dvec3& from_m, const dvec3& along,
                 double reach_m) {
    double inside = 0, outside = reach_m;
    for (int i = 0; i < 14; ++i) {
        const double middle = (inside + outside) / 2;
        (body(from_m + along * middle) < 0 ? inside : outside) = middle;
    }
    return inside;
}

const Cut& Covering::cut_at(const dvec3& p) const {
    const Piece* nearest = &pieces.front();
    double least = nearest->field(p);
    for (const Piece& piece : pieces)
        if (const double here = piece.field(p); here < least) {
            nearest = &piece;
            least = here;
        }
    return nearest->cut;
}

bool has_short_sleeves(const Appearance& look) {
    return look.top == Top::tee || look.top == Top::dress;
}

bool is_tucked(const Appearance& look) {
    return look.bottom == Bottom::skirt && look.top != Top::jacket;
}

double hem_up_m(const Appearance& look, const BodyMeasures& m) {
    return (look.top == Top::jacket        ? -0.050
            : look.bottom == Bottom::skirt ? 0.012
                                           : -0.022) *
           m.stature_m;
}

Cut hem_cut(const Skeleton& s, const Appearance& look, const BodyMeasures& m) {
    const double u = m.stature_m;
    double lap = 0;
    for (const Leg& leg : s.legs)
        lap += std::clamp(glm::dot(glm::normalize(leg.knee_m - leg.hip_m), s.trunk[2]), 0.0, 1.0);
    const double behind_m = hem_up_m(look, m);
    const double half_depth_m = 0.07 * u;
    // Thighs are half as thick as this is high above the joints.
    const double on_lap_m = 0.052 * u;
    const double front_m = glm::mix(behind_m, std::max(behind_m, on_lap_m), lap / 2);
    const dvec3 along = s.trunk * dvec3{0, front_m - behind_m, 2 * half_depth_m};
    return {s.on_trunk({0, (behind_m + front_m) / 2, 0}),
            glm::normalize(glm::cross(along, s.trunk[0])) * -1.0};
}

double belt_up_m(const Appearance& look, const BodyMeasures& m) {
    return hem_up_m(look, m) + (is_tucked(look) ? 0.055 : 0.035) * m.stature_m;
}

RoundedCone sleeve_end(const Skeleton& s, const Appearance& look, const BodyMeasures& m, int side) {
    const auto i = static_cast<std::size_t>(side);
    const double cloth = cloth_m(look, m);
    RoundedCone end = has_short_sleeves(look) ? upper_arm(s, m, i, cloth) : forearm(s, m, i, cloth);
    const double share = has_short_sleeves(look) ? 0.62 : 0.95;
    end.to_m = glm::mix(end.from_m, end.to_m, share);
    end.to_radius_m = glm::mix(end.from_radius_m, end.to_radius_m, share);
    if (has_short_sleeves(look))
        end.to_radius_m = (biceps_share * s.build.flesh + 0.005) * m.stature_m + cloth;
    return end;
}

ClothedLimbs clothed_limbs(const Skeleton& s, const Appearance& look, const BodyMeasures& m) {
    const double cloth = cloth_m(look, m);
    const double trouser = 0.005 * std::sqrt(m.stature_m / 1.7);
    ClothedLimbs limbs;
    for (std::size_t side = 0; side < 2; ++side) {
        limbs.upper_arms[side] = upper_arm(s, m, side, cloth);
        limbs.forearms[side] = sleeve_end(s, look, m, static_cast<int>(side));
        limbs.thighs[side] = thigh(s, m, side, trouser);
        limbs.shanks[side] = shank(s, m, side, trouser);
        limbs.bare_upper_arms[side] = upper_arm(s, m, side, 0);
        limbs.bare_forearms[side] = forearm(s, m, side, 0);
        limbs.bare_shanks[side] = shank(s, m, side, 0);
    }
    return limbs;
}

Covering top_of(const Skeleton& s, const Appearance& look, const BodyMeasures& m,
                const Covering& bottom) {
    const double u = m.stature_m;
    const bool tucked = is_tucked(look);
    const shapes::Field under = bottom.field;
    const double cloth = cloth_m(look, m);
    const bool short_sleeves = has_short_sleeves(look);
    const Trunk trunk{s, m, look.feminine, cloth};
    const dvec3 nape = s.on_trunk({0, s.build.shoulder_up_m + 0.024 * u, -0.013 * u});
    std::array<RoundedCone, 2> collar_bones, upper, fore;
    for (std::size_t side = 0; side < 2; ++side) {
        collar_bones[side] = {nape, s.arms[side].shoulder_m - s.trunk[1] * (0.014 * u),
                              0.031 * u + cloth / 2, 0.019 * u * s.build.flesh + cloth / 2};
        // Cut off at the hem or cuff.
        const RoundedCone end =
            drawn_out(sleeve_end(s, look, m, static_cast<int>(side)), 0.035 * u);
        upper[side] = short_sleeves ? end : upper_arm(s, m, side, cloth);
        fore[side] = end;
    }
    const double hem = hem_up_m(look, m);
    const double top = s.build.shoulder_up_m;
    const double fold = (look.top == Top::jumper ? 0.0016 : 0.0011) * u;
    const double tucked_below = belt_up_m(look, m);
    const auto body = [=](const dvec3& p) {
        const double height = trunk.height_m(p);
        double whole = 1e9;
        if (height < top + 0.1 * u) {
            const double low = 1 - glm::smoothstep(0.1 * top, 0.65 * top, height);
            whole = std::max(trunk.distance_m(p), height - top - 0.020 * u);
            if (height < 0.45 * top)
                whole = blended(whole, seat_distance_m(s, m, p, 1.5 * cloth), 0.03 * u);
            if (whole < 0.05 * u)
                whole += folds(height, around_of(s, p), fold * (0.25 + low));
            // Inside the waistband cloth is drawn in.
            if (tucked)
                whole += 0.008 * u *
                         (1 - glm::smoothstep(tucked_below - 0.025 * u, tucked_below + 0.02 * u,
                                              height));
            // Cloth hangs over what is worn beneath, but not along the thighs.
            if (!tucked && height < 0.45 * top && height > hem - 0.05 * u)
                whole = blended(
                    whole,
                    std::max(under(p) - 0.7 * cloth - 0.001 * u, trunk.forward_m(p) - 0.075 * u),
                    0.02 * u);
            whole = std::max(whole, hem - 0.05 * u - height);
        }
        if (height > 0.7 * top)
            for (const RoundedCone& bone : collar_bones)
                whole = blended(whole, bone.distance_m(p), 0.035 * u);
        return whole;
    };
    const auto sleeve = [=](const dvec3& p, std::size_t side) {
        double cloth_at = upper[side].distance_m(p);
        if (short_sleeves)
            return cloth_at;
        cloth_at = blended(cloth_at, fore[side].distance_m(p), 0.012 * u);
        if (cloth_at < 0.02 * u) {
            // Most cloth gathers at the elbow.
            const dvec3 off = p - fore[side].from_m;
            const double near = std::exp(-glm::dot(off, off) / (0.012 * u * u));
            cloth_at += folds(glm::dot(off, s.trunk[1]), off.x * 9 + off.z * 14,
                              0.0012 * u * (0.35 + near));
        }
        return cloth_at;
    };
    const auto field = [=](const dvec3& p) {
        double whole = body(p);
        // Sleeves flow into the shoulder but lie apart from the ribs.
        const double apart = glm::smoothstep(0.62 * top, 0.95 * top, trunk.height_m(p));
        for (const std::size_t side : {0u, 1u})
            whole = blended(whole, sleeve(p, side), (0.003 + 0.026 * apart) * u);
        return whole;
    };
    std::vector<Piece> pieces{{body, hem_cut(s, look, m)}};
    for (const std::size_t side : {0u, 1u}) {
        const RoundedCone end = sleeve_end(s, look, m, static_cast<int>(side));
        pieces.push_back({[=](const dvec3& p) { return sleeve(p, side); },
                          {end.to_m, glm::normalize(end.to_m - end.from_m)}});
    }
    const double pad = 0.016 * u;
    const RoundedCone chest{s.on_trunk({0, hem + 0.07 * u, 0}), nape, 0.11 * u * s.build.flesh,
                            0.045 * u};
    if (short_sleeves)
        return around(field, {chest, upper[0], upper[1]}, pad, std::move(pieces));
    return around(field, {chest, upper[0], upper[1], fore[0], fore[1]}, pad, std::move(pieces));
}

Covering bottom_of(const Skeleton& s, const Appearance& look, const BodyMeasures& m) {
    const double u = m.stature_m;
    const bool skirt = look.bottom == Bottom::skirt;
    const double cloth = 0.005 * std::sqrt(u / 1.7);
    const Trunk trunk{s, m, look.feminine, is_tucked(look) ? cloth_m(look, m) + 0.003 * u : 0.0};
    const dvec3 knees = (s.legs[0].knee_m + s.legs[1].knee_m) / 2.0;
    const dvec3 hips_to_knees = glm::normalize(knees - s.hips_m);
    // 1 standing, 0 with the thighs level: then a skirt lies close and closes over the knees.
    const double hanging = std::clamp(-hips_to_knees.y, 0.0, 1.0);
    std::array<RoundedCone, 2> thighs, shanks;
    for (std::size_t side = 0; side < 2; ++side) {
        thighs[side] = thigh(s, m, side, cloth);
        shanks[side] = shank(s, m, side, cloth);
        if (skirt)
            thighs[side] =
                drawn_out({thighs[side].from_m, thighs[side].to_m, thighs[side].from_radius_m,
                           thighs[side].to_radius_m + glm::mix(0.006, 0.018, hanging) * u},
                          0.05 * u * hanging);
        else
            shanks[side].to_m = glm::mix(shanks[side].from_m, shanks[side].to_m, 0.97);
    }
    const double belt = belt_up_m(look, m);
    // A waistband that shows is cut off; one under a shirt is not seen.
    const double waist_room = (is_tucked(look) ? 0.045 : 0.010) * u;
    // Seated, cloth is stretched from thigh to thigh.
    const double lap_m = 0.036 * u * s.build.flesh * (1 - hanging);
    const RoundedCone lap{s.hips_m, knees, lap_m, lap_m};
    const auto field = [=](const dvec3& p) {
        const double height = trunk.height_m(p);
        double whole = 1e9;
        if (height < belt + 0.06 * u && height > -0.2 * u) {
            whole = std::max({trunk.distance_m(p), height - belt - waist_room, -0.03 * u - height});
            whole = blended(whole, seat_distance_m(s, m, p, cloth), 0.03 * u);
            whole = std::max(whole, height - belt - waist_room);
        }
        std::array<double, 2> legs{};
        for (std::size_t side = 0; side < 2; ++side) {
            double leg = thighs[side].distance_m(p);
            if (!skirt) {
                const double lower =
                    std::max(shanks[side].distance_m(p), shanks[side].beyond_end_m(p) - 0.014 * u);
                leg = blended(leg, lower, 0.02 * u);
                const dvec3 off = p - thighs[side].to_m;
                const double near = std::exp(-glm::dot(off, off) / (0.02 * u * u));
                if (leg < 0.02 * u)
                    leg += folds(off.y, off.x * 12 + off.z * 7, 0.0009 * u * (0.2 + near));
            }
            legs[side] = leg;
        }
        double both =
            blended(legs[0], legs[1], skirt ? glm::mix(0.05, 0.14, hanging) * u : 0.008 * u);
        if (skirt) {
            both = blended(both, lap.distance_m(p), 0.05 * u);
            // Pleats, deeper towards the hem; over a lap cloth lies smooth.
            const double down = glm::smoothstep(0.0, 1.0, glm::distance(p, s.hips_m) / (0.26 * u));
            both += 0.0035 * u * down * hanging *
                    std::sin(9.0 * std::atan2(p.x - s.hips_m.x, p.z - s.hips_m.z));
        }
        return std::max(blended(whole, both, 0.02 * u), 0.003 - p.y);
    };
    const RoundedCone hips{s.on_trunk({0, belt - 0.08 * u, 0}), s.hips_m, 0.10 * u * s.build.flesh,
                           0.10 * u * s.build.flesh};
    const double pad = 0.016 * u;
    if (skirt) {
        std::vector<Piece> pieces{
            {[=](const dvec3& p) { return glm::dot(p - knees, hips_to_knees) + 0.1 * u; },
             {s.on_trunk({0, belt, 0}), s.trunk[1]}},
            {[=](const dvec3& p) { return -glm::dot(p - knees, hips_to_knees) - 0.1 * u; },
             {knees + hips_to_knees * (0.2 * u * (1 - hanging)), hips_to_knees}}};
        return around(field, {hips, thighs[0], thighs[1]}, pad + 0.02 * u, std::move(pieces));
    }
    return around(field, {hips, thighs[0], thighs[1], shanks[0], shanks[1]}, pad);
}

Covering bare_arm(const Skeleton& s, const Appearance& look, const BodyMeasures& m,
                  int side_index) {
    const double u = m.stature_m;
    const auto side = static_cast<std::size_t>(side_index);
    const RoundedCone upper = upper_arm(s, m, side, 0);
    RoundedCone fore = forearm(s, m, side, 0);
    if (has_short_sleeves(look)) {
        const RoundedCone bare{glm::mix(upper.from_m, upper.to_m, 0.4), upper.to_m,
                               biceps_share * u * s.build.flesh, upper.to_radius_m};
        return around(
            [=](const dvec3& p) {
                return blended(bare.distance_m(p), fore.distance_m(p), 0.02 * u);
            },
            {bare, fore}, 0.01 * u);
    }
    fore.from_radius_m = glm::mix(fore.from_radius_m, fore.to_radius_m, 0.8);
    fore.from_m = glm::mix(fore.from_m, fore.to_m, 0.8);
    return around([=](const dvec3& p) { return fore.distance_m(p); }, {fore}, 0.01 * u);
}

Covering bare_leg(const Skeleton& s, const Appearance& look, const BodyMeasures& m,
                  int side_index) {
    const double u = m.stature_m;
    const auto side = static_cast<std::size_t>(side_index);
    RoundedCone lower = shank(s, m, side, 0);
    if (look.bottom == Bottom::skirt) {
        // The calf is fullest a third of the way down, behind the bone.
        const dvec3 down = lower.to_m - lower.from_m;
        const dvec3 back = -s.legs[side].toes;
        const RoundedCone calf{lower.from_m + down * 0.22 + back * (0.006 * u),
                               lower.from_m + down * 0.5, 0.031 * u * s.build.flesh,
                               0.024 * u * s.build.flesh};
        lower.from_radius_m *= 0.95;
        return around(
            [=](const dvec3& p) {
                return blended(lower.distance_m(p), calf.distance_m(p), 0.02 * u);
            },
            {lower, calf}, 0.012 * u);
    }
    lower.from_m = glm::mix(lower.from_m, lower.to_m, 0.85);
    lower.from_radius_m = lower.to_radius_m;
    return around([=](const dvec3& p) { return lower.distance_m(p); }, {lower}, 0.01 * u);
}

Covering bare_neck(const Skeleton& s, const Appearance& look, const BodyMeasures& m) {
    const double u = m.stature_m;
    const double r = neck_radius_m(s, look, m);
    const dvec3 root = s.on_trunk({0, s.build.shoulder_up_m - 0.02 * u, -0.012 * u});
    const dvec3 skull =
        s.head_m + s.head * dvec3{0, -0.05 * m.head_height_m, -0.06 * m.head_length_m};
    const RoundedCone neck{root, skull, 1.08 * r, 0.98 * r};
    const RoundedCone throat{root + s.trunk * dvec3{0, 0.0, 0.022 * u},
                             s.head_m +
                                 s.head * dvec3{0, -0.22 * m.head_height_m, 0.13 * m.head_length_m},
                             0.8 * r, 0.66 * r};
    return around(
        [=](const dvec3& p) { return blended(neck.distance_m(p), throat.distance_m(p), 0.03 * u); },
        {neck, throat}, 0.012 * u);
}

}  // namespace backrow::figures
