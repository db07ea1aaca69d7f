#include "figures/clothes/cloth.h"

#include "figures/body/tube.h"

#include <glm/common.hpp>
#include <glm/geometric.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

namespace backrow::figures {
namespace {

using glm::dvec3;

/// The hoops of a skirt, the last ones its hem turned in; which of them hang free.
struct SkirtHoops {
    std::vector<Hoop> all;
    std::size_t hang_from = 0;
    std::size_t edge = 0;
};

/// From the belt round the hips and straight down.
std::vector<Hoop> hanging_hoops(const Skeleton& s, const SkirtWaist& waist, double u, int rows,
                                const dvec3& colour) {
    const dvec3 knees = (s.legs[0].knee_m + s.legs[1].knee_m) / 2.0;
    const dvec3 hem = knees + glm::normalize(knees - s.hips_m) * (0.055 * u);
    return hoops_round_bend(waist.belt_m, waist.lap_m, hem, 0.075 * u, std::max(2, rows / 5),
                            std::max(3, rows / 2), colour);
}

/// From the belt round the hips, along the thighs, round the knees and a little down.
std::vector<Hoop> lap_hoops(const Skeleton& s, const SkirtWaist& waist, const BodyMeasures& m,
                            int rows, const dvec3& colour) {
    const double u = m.stature_m;
    const dvec3 knees = (s.legs[0].knee_m + s.legs[1].knee_m) / 2.0;
    const dvec3 ankles = (s.legs[0].ankle_m + s.legs[1].ankle_m) / 2.0;
    const dvec3 half_way = glm::mix(waist.lap_m, knees, 0.55);
    const dvec3 hem = knees + glm::normalize(ankles - knees) * skirt_over_knees_m(m);
    std::vector<Hoop> hoops =
        hoops_round_bend(waist.belt_m, waist.lap_m, half_way, 0.075 * u, std::max(2, rows / 5),
                         std::max(1, rows / 5), colour);
    const std::vector<Hoop> over = hoops_round_bend(
        half_way, knees, hem, 0.040 * u, std::max(1, rows / 5), std::max(1, rows / 5), colour);
    hoops.insert(hoops.end(), over.begin() + 1, over.end());
    return hoops;
}

SkirtHoops skirt_hoops(const Skeleton& s, const Appearance& look, const BodyMeasures& m,
                       const ClothRows& rows) {
    const double u = m.stature_m;
    const dvec3 colour = look.bottom_colour;
    const dvec3 band_colour = colour * (look.top == Top::dress ? 0.95 : 0.9);
    const SkirtWaist waist = skirt_waist(s, look, m);
    const bool lies = hanging_of_skirt(s) < skirt_lies_below;
    const int below_waist = std::max(2, rows.trunk_rows / 5);
    SkirtHoops hoops{lies ? lap_hoops(s, waist, m, rows.trunk_rows, colour)
                          : hanging_hoops(s, waist, u, rows.trunk_rows, colour)};
    std::vector<Hoop>& all = hoops.all;
    // Below the hips it hangs; over a lap, below the knees alone.
    hoops.hang_from = lies ? all.size() - static_cast<std::size_t>(std::max(1, rows.trunk_rows / 5))
                           : static_cast<std::size_t>(below_waist) + 1;
    hoops.edge = all.size() - 1;
    // The edge has the thickness of a hem and is dark inside.
    const Hoop last = all.back();
    if (rows.trunk_columns > 30) {
        all.push_back({last.middle_m, last.along, -0.003 * u, colour, 0.5});
        all.push_back(
            {last.middle_m - last.along * (0.02 * u), last.along, -0.006 * u, colour, 0.3});
    }
    const double band_m = 0.016 * u;
    const dvec3 along = all.front().along;
    all.front().lift_m = 0.0016 * u;
    all.front().colour = band_colour;
    std::vector<Hoop> above;
    if (rows.trunk_columns > 16)  // Turned in, to what is tucked into it.
        above.push_back(
            {waist.belt_m - s.trunk[1] * (0.002 * u), along, -0.016 * u, band_colour, 0.5});
    above.push_back(all.front());
    if (rows.trunk_columns > 8) {  // The waistband.
        above.push_back({waist.belt_m - s.trunk[1] * band_m, along, 0.0016 * u, band_colour, 1});
        above.push_back({waist.belt_m - s.trunk[1] * (1.06 * band_m), along, 0, colour, 0.85});
    }
    all.erase(all.begin());
    all.insert(all.begin(), above.begin(), above.end());
    hoops.hang_from += above.size() - 1;
    hoops.edge += above.size() - 1;
    return hoops;
}

}  // namespace

void add_skirt(const Skeleton& s, const Appearance& look, const BodyMeasures& m,
               const shapes::Field& skirt, const ClothRows& rows, shapes::Mesh& onto) {
    const double u = m.stature_m;
    const auto columns = static_cast<std::size_t>(rows.trunk_columns);
    const bool lies = hanging_of_skirt(s) < skirt_lies_below;
    const SkirtHoops hoops = skirt_hoops(s, look, m, rows);
    Loft loft = tube(skirt, hoops.all, s.pelvis[2], 0.19 * u * std::max(1.0, s.build.flesh),
                     rows.trunk_columns);
    // Cloth does not follow the body back in: it hangs, the wider the lower, in flutes. Each needs
    // four columns, or its crest would be a matter of luck.
    const double flutes = std::min(9, rows.trunk_columns / 4);
    const auto hang_rows = static_cast<double>(hoops.edge + 1 - hoops.hang_from);
    const double length_m =
        glm::distance(hoops.all[hoops.hang_from - 1].middle_m, hoops.all[hoops.edge].middle_m);
    const double flare_m = (lies ? 0.10 : 0.035) * length_m / hang_rows;
    const double depth_m = (lies ? 0.0030 : 0.0045) * u;
    for (std::size_t h = hoops.hang_from; h < hoops.all.size(); ++h) {
        const double share =
            std::min(1.0, static_cast<double>(h - hoops.hang_from + 1) / hang_rows);
        const double inside_m = h > hoops.edge ? hoops.all[h].lift_m : 0.0;
        for (std::size_t i = 0; i < columns; ++i) {
            const double a = 2 * std::numbers::pi * static_cast<double>(i) / rows.trunk_columns;
            const double wave = std::sin(flutes * a + 0.7 * std::sin(2 * a) + look.fold_phase_rad);
            LoftPoint& here = loft.points[h * columns + i];
            const LoftPoint& above = loft.points[(h - 1) * columns + i];
            const dvec3& middle = hoops.all[h].middle_m;
            const dvec3 from_middle = here.at_m - middle;
            const double own = std::max(1e-6, glm::length(from_middle));
            if (inside_m < 0) {
                const LoftPoint& edge = loft.points[hoops.edge * columns + i];
                const double width =
                    glm::distance(edge.at_m, hoops.all[hoops.edge].middle_m) + inside_m;
                here.at_m = middle + from_middle * (width / own);
                continue;
            }
            const double last = glm::distance(above.at_m, hoops.all[h - 1].middle_m);
            const double straight = lies ? own : std::max(own, last + flare_m);
            const double radius =
                straight + (lies ? flare_m * share : 0.0) + depth_m * share * share * wave;
            here.at_m = middle + from_middle * (radius / own);
            here.ambient_visibility = 1 - 0.25 * share * (0.5 - 0.5 * wave);
        }
    }
    append(loft, onto);
}

}  // namespace backrow::figures
