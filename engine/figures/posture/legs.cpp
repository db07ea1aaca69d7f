#include "figures/name_hash.h"
#include "figures/posture/limbs.h"

#include "base/units.h"

#include <glm/geometric.hpp>

#include <algorithm>
#include <cmath>

namespace backrow::figures {

using glm::dvec3;

Axes turned(double deg) {
    const double a = rad_from_deg(deg);
    return {{std::cos(a), 0, -std::sin(a)}, {0, 1, 0}, {std::sin(a), 0, std::cos(a)}};
}

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

int weight_leg(const Person& person) {
    if (person.pose.posture != Posture::standing)
        return 0;
    const int manner = Draws{person.name, "legs"}.one_of(5);
    return manner < 2 ? 1 : manner < 4 ? -1 : 0;
}

void place_legs(Skeleton& s, const Person& person, const Axes& turn) {
    if (is_carried(person.pose.posture))
        return place_carried_legs(s, person);
    const Build& b = s.build;
    const double stature = person.measures.stature_m;
    for (int side = 0; side < 2; ++side) {
        const double out = side == 0 ? 1.0 : -1.0;
        Leg& leg = s.legs[static_cast<std::size_t>(side)];
        leg.hip_m = s.hips_m + s.pelvis * dvec3{out * b.hip_half_m, 0, 0};
        // Feet stand under the place though the hips may move over one of them.
        const dvec3 ground =
            person.pose.posture == Posture::standing ? dvec3{0} : dvec3{s.hips_m.x, 0, s.hips_m.z};
        dvec3 ankle{out * 0.056 * stature, b.ankle_height_m, 0};
        dvec3 hint{out * 0.12, 0.0, 1.0};
        double splay_deg = out * 9;
        leg.sole = {0, -1, 0};
        dvec3 toes{0, 0, 1};
        switch (person.pose.posture) {
        case Posture::standing:
            // The free leg stands a little forward and outwards, its knee bent.
            if (weight_leg(person) * out < 0) {
                ankle += dvec3{out * 0.012, 0, 0.034} * stature;
                splay_deg = out * 17;
            } else if (weight_leg(person) != 0) {
                ankle.x -= out * 0.008 * stature;
            }
            break;
        case Posture::seated:
            ankle = {out * 0.06 * stature, b.ankle_height_m, 0.97 * b.thigh_m};
            hint = {out * 0.1, 1, 1};
            break;
        case Posture::on_step:
            // The lower the step, the further forward the feet.
            ankle = {out * 0.062 * stature, b.ankle_height_m,
                     0.97 * b.thigh_m +
                         0.50 * (highest_step_m(person.measures) - person.pose.step_m)};
            hint = {out * 0.06, 1, 1};
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
        case Posture::kneeling_both:
            ankle = {out * 0.046 * stature, 0.034 * stature, -0.985 * b.shank_m};
            hint = {out * 0.10, -0.25, 1};
            splay_deg = 0;
            toes = glm::normalize(dvec3{0, -0.36, -1.0});
            leg.sole = glm::normalize(dvec3{0, 1.0, -0.36});
            break;
        case Posture::on_ground:
            // Crossed: the left shank lies before the right one.
            ankle = {-out * 0.055 * stature, 0.046 * stature,
                     (side == 0 ? 0.235 : 0.185) * stature};
            hint = {out, 0.42, 0.25};
            splay_deg = 0;
            // Feet lie on their outer edges, each under the other knee.
            toes = glm::normalize(dvec3{-out, -0.10, 0.35});
            leg.sole = glm::normalize(dvec3{-out * 0.30, -0.45, -0.85});
            break;
        case Posture::crouching:
            ankle = {out * 0.075 * stature, b.ankle_height_m, 0.125 * stature};
            hint = {out * 0.3, 0.8, 1};
            splay_deg = out * 16;
            break;
        case Posture::on_hip:
        case Posture::on_shoulders:
            break;  // place_carried_legs()
        }
        leg.ankle_m = ground + turn * ankle;
        leg.knee_m = bend(leg.hip_m, leg.ankle_m, b.thigh_m, b.shank_m, turn * hint);
        const Axes foot = turn * turned(splay_deg);
        leg.toes = foot * toes;
        leg.sole = foot * leg.sole;
    }
}

}  // namespace backrow::figures
