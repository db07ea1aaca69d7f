#include "figures/clothes/cloth.h"

#include "figures/body/tube.h"
#include "figures/clothes/folds.h"

#include <glm/common.hpp>
#include <glm/geometric.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <vector>

namespace backrow::figures {
namespace {

using glm::dvec3;

void add_seat(const Skeleton& s, const Appearance& look, const BodyMeasures& m,
              const shapes::Field& seat, const ClothRows& rows, shapes::Mesh& onto) {
    const double u = m.stature_m;
    const int columns = rows.trunk_columns * 2 / 3;
    const int level = std::max(1, rows.trunk_rows / 8), round = std::max(2, rows.trunk_rows / 4);
    // From the belt down to the joints, then closing under the body.
    const dvec3 belt = s.on_trunk({0, belt_up_m(look, m), -0.008 * u});
    const dvec3 joints = s.hips_m - s.pelvis[1] * (0.005 * u) - s.pelvis[2] * (0.008 * u);
    const double reach = 0.14 * u * std::max(1.0, s.build.flesh);
    // Under a top that hangs over them trousers lie closer, lest they show through where both
    // fields nearly touch.
    const bool is_covered = !is_tucked(look);
    const auto under_the_top_m = [&](const dvec3& point, double around) {
        if (!is_covered)
            return 0.0;
        const double over_hem_m =
            glm::dot(point - s.hips_m, s.trunk[1]) - hem_up_m(s, look, m, around);
        return 0.005 * u * glm::smoothstep(-0.004 * u, 0.006 * u, over_hem_m);
    };
    Loft loft{columns, true, {}};
    for (int r = 0; r < level + round; ++r)
        for (int i = 0; i < columns; ++i) {
            const double around = 2 * std::numbers::pi * i / columns;
            const double share = std::min(1.0, r / static_cast<double>(level));
            const dvec3 from = glm::mix(belt, joints, share);
            const double below = std::max(0, r - level) / (round - 1.0) * std::numbers::pi / 2;
            const dvec3 out = (s.pelvis[0] * std::sin(around) + s.pelvis[2] * std::cos(around)) *
                                  std::cos(below) -
                              s.pelvis[1] * std::sin(below);
            const dvec3 point = from + out * leaves_at(seat, from, out, reach);
            loft.points.push_back(
                {point - out * under_the_top_m(point, around), look.bottom_colour, 1});
        }
    append(loft, onto);
}

/// Whether the trousers have a crease down the front.
bool is_ironed(const Appearance& look) {
    return look.top == Top::jacket || look.top == Top::shirt || look.top == Top::blouse;
}

void add_leg(const Skeleton& s, const Appearance& look, const BodyMeasures& m,
             const shapes::Field& cloth, std::size_t side, const ClothRows& rows,
             shapes::Mesh& onto) {
    const double u = m.stature_m;
    const Leg& leg = s.legs[side];
    const bool few = rows.limb_rows < 4;
    const dvec3 upper = glm::normalize(leg.knee_m - leg.hip_m);
    const dvec3 lower = glm::normalize(leg.ankle_m - leg.knee_m);
    const dvec3 hem = trouser_hem_m(s, m, side);
    const dvec3 start = leg.hip_m + upper * ((few ? 0.020 : -0.012) * u);
    std::vector<Hoop> hoops = hoops_round_bend(start, leg.knee_m, hem, 0.045 * u, rows.limb_rows,
                                               rows.limb_rows, look.bottom_colour);
    const std::size_t folded = hoops.size();
    // In front the shoe lifts the hem.
    const dvec3 lifted = glm::normalize(lower + 0.22 * leg.toes);
    hoops.back().along = lifted;
    if (rows.limb_rows > 1)
        hoops.push_back({hem + lower * (0.001 * u), lifted, -0.003 * u, look.bottom_colour, 0.5});
    if (!few)
        hoops.push_back({hem - lower * (0.015 * u), lifted, -0.005 * u, look.bottom_colour, 0.3});
    const double to_bend = glm::distance(start, leg.knee_m);
    const LimbFolds folds{u,
                          to_bend,
                          to_bend + glm::distance(leg.knee_m, hem),
                          upper,
                          lower,
                          0.85,
                          look.fold_phase_rad + 1.0 + 2.0 * static_cast<double>(side)};
    // Of few corners one points down, where somebody sits or kneels.
    const dvec3 front = std::abs(upper.y) < 0.7 ? dvec3{0, 1, 0} : s.pelvis[2];
    const std::vector<dvec3> creases = carried_along(hoops, front);
    const double ironed_m = is_ironed(look) ? 0.0042 * u : 0.0;
    const double to_knee_rows = rows.limb_rows;
    const Lift lift = [&](std::size_t h, const dvec3& out) {
        if (few || h >= folded)
            return 0.0;
        // Sharp along one column in front and one behind, from below the seat on.
        const double crease = std::abs(glm::dot(out, creases[h])) > 0.999
                                  ? ironed_m * glm::smoothstep(0.2, 0.6, h / to_knee_rows)
                                  : 0.0;
        const double along = h <= static_cast<std::size_t>(rows.limb_rows)
                                 ? glm::distance(start, hoops[h].middle_m)
                                 : to_bend + glm::distance(leg.knee_m, hoops[h].middle_m);
        return folds.out_m(along, out) + crease;
    };
    append(
        tube(cloth, hoops, front, 0.09 * u * std::max(1.0, s.build.flesh), rows.limb_columns, lift),
        onto);
}

}  // namespace

void add_trousers(const Skeleton& s, const Appearance& look, const BodyMeasures& m,
                  const TrouserFields& trousers, const ClothRows& rows, shapes::Mesh& onto) {
    add_seat(s, look, m, trousers.seat, rows, onto);
    for (const std::size_t side : {0u, 1u})
        add_leg(s, look, m, trousers.legs[side], side, rows, onto);
}

}  // namespace backrow::figures
