#include "figures/clothes/cloth.h"

#include "figures/body/tube.h"

#include <glm/common.hpp>
#include <glm/geometric.hpp>

#include <algorithm>
#include <vector>

namespace backrow::figures {
namespace {

using glm::dvec3;

/// As the skin of hands is tinted.
const dvec3 limb_tint{1.0, 0.95, 0.95};

std::vector<Hoop> straight_hoops(const dvec3& from, const dvec3& to, int count,
                                 const dvec3& colour) {
    std::vector<Hoop> hoops;
    for (int r = 0; r <= count; ++r)
        hoops.push_back({glm::mix(from, to, r / static_cast<double>(count)),
                         glm::normalize(to - from), 0, colour, 1});
    return hoops;
}

void add_arm(const Skeleton& s, const Appearance& look, const BodyMeasures& m, std::size_t side,
             const ClothRows& rows, shapes::Mesh& onto) {
    const double u = m.stature_m;
    const dvec3 colour = look.skin * limb_tint;
    RoundedCone fore = forearm(s, m, side, 0);
    const double reach = 0.06 * u * std::max(1.0, s.build.flesh);
    // The muscle of the forearm, fullest a quarter down.
    const double full = fore.from_radius_m;
    const RoundedCone belly = {glm::mix(fore.from_m, fore.to_m, 0.10),
                               glm::mix(fore.from_m, fore.to_m, 0.42), 0.98 * full, 0.86 * full};
    fore.from_radius_m *= 0.92;
    fore.to_radius_m *= 0.85;
    const shapes::Field skin_of_wrist = [=](const dvec3& p) { return fore.distance_m(p); };
    // Rounded off under the hand.
    const dvec3 end = fore.to_m + fore.along() * (0.5 * fore.to_radius_m);
    if (!has_short_sleeves(look)) {
        if (rows.limb_rows < 2)
            return;  // Too small to be seen between cuff and hand.
        append(tube(skin_of_wrist,
                    straight_hoops(glm::mix(fore.from_m, fore.to_m, 0.82), end, 3, colour),
                    s.trunk[2], reach, rows.limb_columns),
               onto, Cover::skin);
        return;
    }
    const RoundedCone upper = upper_arm(s, m, side, 0);
    const double biceps = 0.0265 * u * s.build.flesh;
    const RoundedCone bare{glm::mix(upper.from_m, upper.to_m, 0.35), upper.to_m, biceps,
                           0.96 * upper.to_radius_m};
    const shapes::Field skin = [=](const dvec3& p) {
        return smooth_min(bare.distance_m(p),
                          smooth_min(fore.distance_m(p), belly.distance_m(p), 0.012 * u), 0.02 * u);
    };
    append(tube(skin,
                hoops_round_bend(glm::mix(bare.from_m, bare.to_m, 0.1), fore.from_m, end,
                                 fore.from_radius_m, rows.limb_rows, rows.limb_rows, colour),
                s.trunk[2], reach, rows.limb_columns),
           onto, Cover::skin);
}

void add_shank(const Skeleton& s, const Appearance& look, const BodyMeasures& m, std::size_t side,
               const ClothRows& rows, shapes::Mesh& onto) {
    const double u = m.stature_m;
    const dvec3 colour = look.skin * limb_tint;
    const double reach = 0.07 * u * std::max(1.0, s.build.flesh);
    RoundedCone lower = shank(s, m, side, 0);
    lower.to_radius_m *= 0.82;
    if (look.bottom == Bottom::trousers) {
        if (rows.limb_rows < 2)
            return;
        const shapes::Field ankle = [=](const dvec3& p) { return lower.distance_m(p); };
        append(tube(ankle,
                    straight_hoops(glm::mix(lower.from_m, lower.to_m, 0.88), lower.to_m, 1, colour),
                    s.pelvis[0], reach, rows.limb_columns),
               onto, Cover::skin);
        return;
    }
    // The calf is fullest a third of the way down, behind the bone.
    const dvec3 down = lower.to_m - lower.from_m;
    const dvec3 back = -s.legs[side].toes;
    const RoundedCone calf{lower.from_m + down * 0.22 + back * (0.008 * u),
                           lower.from_m + down * 0.52, 0.0295 * u * s.build.flesh,
                           0.021 * u * s.build.flesh};
    lower.from_radius_m *= 0.90;
    const RoundedCone above = thigh(s, m, side, -0.002 * u);
    const shapes::Field skin = [=](const dvec3& p) {
        return smooth_min(smooth_min(lower.distance_m(p), above.distance_m(p), 0.012 * u),
                          calf.distance_m(p), 0.02 * u);
    };
    append(
        tube(skin,
             hoops_round_bend(glm::mix(above.from_m, above.to_m, rows.limb_rows < 2 ? 0.95 : 0.72),
                              lower.from_m, lower.to_m, lower.from_radius_m,
                              std::max(1, rows.limb_rows / 3), rows.limb_rows, colour),
             s.pelvis[0], reach, rows.limb_columns),
        onto, Cover::skin);
}

}  // namespace

void add_bare_skin(const Skeleton& s, const Appearance& look, const BodyMeasures& m,
                   const shapes::Field& neck, const ClothRows& rows, shapes::Mesh& onto) {
    const double u = m.stature_m;
    // It closes inside the skull.
    const dvec3 head =
        s.head_m + s.head * dvec3{0, 0.10 * m.head_height_m, -0.055 * m.head_length_m};
    const dvec3 chest = s.on_trunk({0, s.build.shoulder_up_m - 0.01 * u, -0.006 * u});
    // As many corners as the neckline where both have few, and at the same places.
    const bool few = rows.limb_rows < 2;
    const dvec3 front = few ? 0.866 * s.head[2] + 0.5 * s.head[0] : s.head[2];
    append(tube(neck, straight_hoops(head, chest, std::max(2, rows.limb_rows), look.skin), front,
                0.06 * u, few ? rows.trunk_columns : rows.limb_columns * 3 / 2),
           onto, Cover::skin);
    for (const std::size_t side : {0u, 1u}) {
        add_arm(s, look, m, side, rows, onto);
        add_shank(s, look, m, side, rows, onto);
    }
}

}  // namespace backrow::figures
