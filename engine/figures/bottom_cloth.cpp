#include "figures/cloth.h"

#include "figures/folds.h"
#include "figures/tube.h"

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
            loft.points.push_back(
                {from + out * leaves_at(seat, from, out, reach), look.bottom_colour, 1});
        }
    append(loft, onto);
}

void add_leg(const Skeleton& s, const Appearance& look, const BodyMeasures& m,
             const shapes::Field& cloth, std::size_t side, const ClothRows& rows,
             shapes::Mesh& onto) {
    const double u = m.stature_m;
    const Leg& leg = s.legs[side];
    const bool few = rows.limb_rows < 4;
    const dvec3 upper = glm::normalize(leg.knee_m - leg.hip_m);
    const dvec3 lower = glm::normalize(leg.ankle_m - leg.knee_m);
    const dvec3 ankle = leg.ankle_m + lower * (0.004 * u);
    const dvec3 start = leg.hip_m + upper * ((few ? 0.020 : -0.012) * u);
    std::vector<Hoop> hoops = hoops_round_bend(start, leg.knee_m, ankle, 0.045 * u, rows.limb_rows,
                                               rows.limb_rows, look.bottom_colour);
    const std::size_t folded = hoops.size();
    if (rows.limb_rows > 1)
        hoops.push_back({ankle + lower * (0.001 * u), lower, -0.003 * u, look.bottom_colour, 0.5});
    if (!few)
        hoops.push_back({ankle - lower * (0.02 * u), lower, -0.005 * u, look.bottom_colour, 0.3});
    const double to_bend = glm::distance(start, leg.knee_m);
    const LimbFolds folds{u,
                          to_bend,
                          to_bend + glm::distance(leg.knee_m, ankle),
                          upper,
                          lower,
                          0.85,
                          look.fold_phase_rad + 1.0 + 2.0 * static_cast<double>(side)};
    const Lift lift = [&](std::size_t h, const dvec3& out) {
        if (few || h >= folded)
            return 0.0;
        const double along = h <= static_cast<std::size_t>(rows.limb_rows)
                                 ? glm::distance(start, hoops[h].middle_m)
                                 : to_bend + glm::distance(leg.knee_m, hoops[h].middle_m);
        return folds.out_m(along, out);
    };
    // Of few corners one points down, where somebody sits or kneels.
    const dvec3 front = std::abs(upper.y) < 0.7 ? dvec3{0, 1, 0} : s.pelvis[2];
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

void add_skirt(const Skeleton& s, const Appearance& look, const BodyMeasures& m,
               const shapes::Field& skirt, const ClothRows& rows, shapes::Mesh& onto) {
    const double u = m.stature_m;
    const int columns = rows.trunk_columns;
    const dvec3 knees = (s.legs[0].knee_m + s.legs[1].knee_m) / 2.0;
    const dvec3 thighs = glm::normalize(knees - s.hips_m);
    // 1 standing, 0 with the thighs level.
    const double hanging = std::clamp(-thighs.y, 0.0, 1.0);
    const dvec3 colour = look.bottom_colour;
    // Over a lap the line of hoops bends as the body does, and at the knees once more.
    const auto [belt, lap] = skirt_waist(s, look, m);
    const dvec3 hem = knees + thighs * (0.055 * u * hanging);
    const int before = std::max(2, rows.trunk_rows / 5), after = std::max(3, rows.trunk_rows / 2);
    std::vector<Hoop> hoops = hoops_round_bend(belt, lap, hem, 0.075 * u, before, after, colour);
    const double band_m = 0.016 * u;
    hoops.front().lift_m = 0.0016 * u;
    const dvec3 band_colour = colour * (look.top == Top::dress ? 0.95 : 0.9);
    hoops.front().colour = band_colour;
    const dvec3 along = hoops.front().along;
    if (columns > 8) {
        // The waistband.
        hoops.insert(hoops.begin() + 1,
                     {{belt - s.trunk[1] * band_m, along, 0.0016 * u, band_colour, 1},
                      {belt - s.trunk[1] * (1.06 * band_m), along, 0, colour, 0.85}});
    }
    const bool turned_in = columns > 16;
    if (turned_in)  // At the top, to what is tucked into it.
        hoops.insert(hoops.begin(),
                     Hoop{belt - s.trunk[1] * (0.002 * u), along, -0.016 * u, band_colour, 0.5});
    const double reach = 0.19 * u * std::max(1.0, s.build.flesh);
    Loft loft = tube(skirt, hoops, s.pelvis[2], reach, columns);
    const auto at = [&](std::size_t h, std::size_t i) -> LoftPoint& {
        return loft.points[h * static_cast<std::size_t>(columns) + i];
    };
    // Cloth does not follow the body back in: below the hips it hangs, the wider the lower, in
    // flutes.
    const std::size_t hips =
        static_cast<std::size_t>(before) + (columns > 8 ? 3 : 1) + (turned_in ? 1 : 0);
    const double flare = 0.035 * glm::distance(lap, hem) / static_cast<double>(hoops.size() - hips);
    for (std::size_t h = hips; h < hoops.size(); ++h) {
        const double share =
            static_cast<double>(h - hips + 1) / static_cast<double>(hoops.size() - hips);
        for (std::size_t i = 0; i < static_cast<std::size_t>(columns); ++i) {
            const double a = 2 * std::numbers::pi * static_cast<double>(i) / columns;
            const double wave = std::sin(9 * a + 0.7 * std::sin(2 * a) + look.fold_phase_rad);
            const dvec3 from_middle = at(h, i).at_m - hoops[h].middle_m;
            const double own = glm::length(from_middle);
            const double above = glm::distance(at(h - 1, i).at_m, hoops[h - 1].middle_m);
            const double radius = glm::mix(own, std::max(own, above + flare), hanging) +
                                  hanging * 0.0045 * u * share * share * wave;
            at(h, i).at_m = hoops[h].middle_m + from_middle * (radius / own);
            at(h, i).openness = 1 - 0.25 * hanging * share * (0.5 - 0.5 * wave);
        }
    }
    // Over the knees of somebody seated it turns down, but for what lies under the thighs.
    const int over_knees = hanging < 0.7 ? std::max(2, rows.trunk_rows / 7) : 0;
    const std::size_t last = hoops.size() - 1;
    for (int r = 1; r <= over_knees; ++r)
        for (std::size_t i = 0; i < static_cast<std::size_t>(columns); ++i) {
            const dvec3 level = glm::normalize(at(last, i).at_m - hem);
            const double turned = glm::smoothstep(-0.7, 0.2, level.y) * r / over_knees;
            const dvec3 out = level * std::cos(0.8 * turned) + thighs * std::sin(0.8 * turned);
            dvec3 p = hem + out * leaves_at(skirt, hem, out, reach);
            p.y -= 0.020 * u * turned * turned;
            loft.points.push_back({p, colour, 1});
        }
    append(loft, onto);
}

}  // namespace backrow::figures
