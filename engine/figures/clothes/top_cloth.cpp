#include "figures/clothes/cloth.h"

#include "figures/body/tube.h"
#include "figures/clothes/folds.h"

#include <glm/common.hpp>
#include <glm/geometric.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

namespace backrow::figures {
namespace {

using glm::dvec3;

/// From one direction to another along the great circle.
dvec3 swung(const dvec3& from, const dvec3& to, double share) {
    const double angle = std::acos(glm::clamp(glm::dot(from, to), -0.9999, 0.9999));
    return (from * std::sin((1 - share) * angle) + to * std::sin(share * angle)) / std::sin(angle);
}

/// A band along an edge: of a jumper broad and close, of other tops a hem.
struct Band {
    double width_m;
    double stand_out_m;
    dvec3 colour;
};

Band hem_band(const Appearance& look, double u) {
    if (look.top == Top::jumper)
        return {0.028 * u, -0.0010 * u, look.top_colour * 0.90};
    if (look.top == Top::jacket)
        return {0.010 * u, 0.0003 * u, look.top_colour * 0.97};
    return {0.008 * u, 0.0006 * u, look.top_colour * 0.95};
}

Band cuff_band(const Appearance& look, double u) {
    if (look.top == Top::jumper)
        return {0.034 * u, -0.0026 * u, look.top_colour * 0.90};
    if (look.top == Top::shirt || look.top == Top::blouse)
        return {0.032 * u, -0.0004 * u, look.top_colour * 1.03};
    return {0.010 * u, 0.0006 * u, look.top_colour * 0.95};
}

/// Rows of the body: how far down from the arms to the hem, 0 … 1, or a place at the hem.
struct Row {
    double share = 0;
    double above_hem_m = 0;
    double lift_m = 0;
    bool banded = false;
    double ambient_visibility = 1;
};

std::vector<Row> rows_down(const Band& band, bool tucked, int count, double u) {
    std::vector<Row> rows;
    const double last = tucked ? 0.038 * u : band.width_m;
    for (int r = 1; r <= count; ++r)
        rows.push_back({r / static_cast<double>(count), last, 0, false, 1});
    if (tucked) {
        // Bloused, then out of sight inside the waistband.
        if (count > 8)
            rows.push_back({1, 0.031 * u, 0, false, 1});
        rows.push_back({1, 0.024 * u, 0, false, 0.7});
        rows.push_back({1, 0, 0, false, 0.5});
        return rows;
    }
    rows.push_back({1, 0.97 * band.width_m, band.stand_out_m, true, 0.9});
    if (count > 8)
        rows.push_back({1, 0.5 * band.width_m, band.stand_out_m, true, 1});
    rows.push_back({1, 0, band.stand_out_m, true, 0.95});
    rows.push_back({1, 0.001 * u, -0.004 * u, true, 0.5});
    if (count > 8)
        rows.push_back({1, 0.012 * u, -0.007 * u, true, 0.3});
    return rows;
}

void add_body_of_top(const Skeleton& s, const Appearance& look, const BodyMeasures& m,
                     const shapes::Field& body, const Neckline& neckline, const ClothRows& rows,
                     shapes::Mesh& onto) {
    const double u = m.stature_m;
    const double reach = 0.16 * u * std::max(1.0, s.build.flesh);
    const Band band = hem_band(look, u);
    const bool tucked = is_tucked(look);
    const int columns = rows.trunk_columns;
    // Over the shoulders rows spread like a fan from the neck to the arms; below they are level.
    // Half way round the fan lies the seam of the sleeve.
    const int fan = 2 * std::max(1, rows.trunk_rows / 4);
    const std::vector<Row> down = rows_down(band, tucked, rows.trunk_rows - fan, u);
    const double arms_up = s.build.shoulder_up_m - 0.048 * u;
    std::vector<std::vector<LoftPoint>> by_column;
    for (int i = 0; i < columns; ++i) {
        std::vector<LoftPoint> points;
        // Few columns, too, must meet the ridge of the shoulders, straight to the side.
        const double first_share = columns % 4 == 0 ? 0.0 : 0.5;
        const double around = 2 * std::numbers::pi * (i + first_share) / columns;
        const dvec3 out = s.trunk[0] * std::sin(around) + s.trunk[2] * std::cos(around);
        const auto middle = [&](double up) {
            // Between the shoulders the trunk is broad: rays start from a line, not from a point.
            const double wide = glm::mix(0.036, 0.050, up / arms_up) * s.build.flesh * u;
            return s.on_trunk({wide * std::sin(around), up, -0.008 * u});
        };
        const auto press = [&](const dvec3& from, const dvec3& along, double lift) {
            return from + along * (leaves_at(body, from, along, reach) + lift);
        };
        const dvec3 neck = neckline.at(around).at_m;
        const dvec3 pivot = middle(arms_up);
        const dvec3 first = glm::normalize(neck - pivot);
        points.push_back({neck, look.top_colour, 0.8});
        for (int r = 1; r <= fan; ++r)
            points.push_back({press(pivot, swung(first, out, r / static_cast<double>(fan)), 0),
                              look.top_colour, 1});
        const double hem =
            tucked ? skirt_top_up_m(s, look, m, 0.075 * u * std::cos(around)) - 0.018 * u
                   : hem_up_m(s, look, m, around);
        // Between few columns cloth must not cut the corner of what is worn below.
        const double corners = columns < 10 ? 0.010 * u : 0.0;
        for (const Row& row : down) {
            const double up = glm::mix(arms_up, hem + row.above_hem_m, row.share);
            points.push_back({press(middle(up), out, row.lift_m + corners * row.share),
                              row.banded ? band.colour : look.top_colour, row.ambient_visibility});
        }
        by_column.push_back(std::move(points));
    }
    Loft loft{columns, true, {}};
    for (std::size_t r = 0; r < by_column.front().size(); ++r)
        for (const std::vector<LoftPoint>& column : by_column)
            loft.points.push_back(column[r]);
    append(loft, onto);
}

/// From the seam round the shoulder to the upper arm's own direction.
std::vector<Hoop> shoulder_hoops(const RoundedCone& upper, const Seam& armhole, const dvec3& start,
                                 int count, const dvec3& colour, double u) {
    if (count < 2)  // Rounded off on the shoulder.
        return {{upper.from_m - upper.along() * (0.8 * upper.from_radius_m), upper.along(), 0,
                 colour, 1}};
    const dvec3 in_seam = upper.from_m - armhole.across * armhole.beyond_m(upper.from_m);
    // Its open edge lies on the body: turned in, it would shade like a step.
    const dvec3 first = in_seam - armhole.across * (0.003 * u);
    std::vector<Hoop> hoops;
    for (int r = 0; r < count; ++r) {
        const double t = r / static_cast<double>(count);
        hoops.push_back({glm::mix(first, start, t),
                         glm::normalize(glm::mix(armhole.across, upper.along(), t)),
                         (r == 0 ? 0.0014 : 0.0008) * u, colour, 1});
    }
    return hoops;
}

void add_sleeve(const Skeleton& s, const Appearance& look, const BodyMeasures& m,
                const shapes::Field& sleeve, const Seam& armhole, std::size_t side,
                const ClothRows& rows, shapes::Mesh& onto) {
    const double u = m.stature_m;
    const bool short_sleeve = has_short_sleeves(look);
    const Band band = cuff_band(look, u);
    const RoundedCone end = sleeve_end(s, look, m, side);
    const RoundedCone upper = short_sleeve ? end : upper_arm(s, m, side, cloth_of_top_m(look, m));
    const bool few = rows.limb_rows < 4;
    const dvec3 start = upper.from_m + upper.along() * (0.026 * u);
    const dvec3 cuff = end.to_m - end.along() * band.width_m;

    std::vector<Hoop> hoops = shoulder_hoops(upper, armhole, start,
                                             rows.limb_rows < 2 ? 1
                                             : few              ? 3
                                                                : std::max(4, rows.limb_rows / 3),
                                             look.top_colour, u);
    const std::size_t begin = hoops.size();
    if (short_sleeve) {
        const int count = std::max(1, rows.limb_rows / 2);
        for (int r = 0; r <= count; ++r)
            hoops.push_back({glm::mix(start, cuff, r / static_cast<double>(count)), end.along(), 0,
                             look.top_colour, 1});
    } else {
        const std::vector<Hoop> arm =
            hoops_round_bend(start, end.from_m, cuff, 0.85 * end.from_radius_m, rows.limb_rows,
                             rows.limb_rows, look.top_colour);
        hoops.insert(hoops.end(), arm.begin(), arm.end());
    }
    const std::size_t folded = hoops.size();
    const auto at_end = [&](double before_m, double lift, double open) {
        hoops.push_back({end.to_m - end.along() * before_m, end.along(), lift, band.colour, open});
    };
    if (!few)
        at_end(0.98 * band.width_m, band.stand_out_m, 0.9);
    at_end(0, band.stand_out_m, 1);
    // Turned in, and dark inside.
    const double thick = short_sleeve ? 0.003 * u : 0.0015 * u;
    if (rows.limb_rows > 1)
        at_end(0.001 * u, band.stand_out_m - thick, 0.5);
    if (!few)
        at_end(0.015 * u, band.stand_out_m - 1.6 * thick, 0.25);

    std::vector<double> along(hoops.size(), 0);
    for (std::size_t h = 1; h < hoops.size(); ++h)
        along[h] = along[h - 1] + glm::distance(hoops[h].middle_m, hoops[h - 1].middle_m);
    const double to_bend =
        short_sleeve ? 10.0 : along[begin + static_cast<std::size_t>(rows.limb_rows)];
    const LimbFolds folds{u,
                          to_bend,
                          along[folded - 1],
                          upper.along(),
                          end.along(),
                          look.top == Top::jacket   ? 0.75
                          : look.top == Top::jumper ? 1.2
                          : short_sleeve            ? 0.5
                                                    : 1.0,
                          look.fold_phase_rad + 2.0 * static_cast<double>(side)};
    // Where the arm is cut in few rows, folds would only dent it.
    // The cuff itself is smooth, or its lining would show through what is drawn in.
    const Lift lift = [&](std::size_t h, const dvec3& out) {
        if (few || h < begin || h >= folded)
            return 0.0;
        const double to_cuff_m = along[folded - 1] - along[h];
        return folds.out_m(along[h], out) * glm::smoothstep(-0.002 * u, 0.022 * u, to_cuff_m);
    };
    Loft loft = tube(sleeve, hoops, s.trunk[2], 0.075 * u, rows.limb_columns, lift);
    append(loft, onto);

    if (look.top == Top::jacket && !few) {
        // The shirt's cuff looks out of the sleeve: along it, over its edge and back inside.
        struct Course {
            double beyond_end, lift, ambient_visibility;
        };
        std::vector<Hoop> shirt;
        for (const Course& c : {Course{-0.010, -0.0030, 0.95}, Course{0.008, -0.0030, 0.95},
                                Course{0.007, -0.0045, 0.4}, Course{-0.005, -0.0060, 0.4}})
            shirt.push_back({end.to_m + end.along() * (c.beyond_end * u), end.along(), c.lift * u,
                             look.under_colour, c.ambient_visibility});
        append(tube(sleeve, shirt, s.trunk[2], 0.06 * u, rows.limb_columns), onto);
    }
}

}  // namespace

void add_top(const Skeleton& s, const Appearance& look, const BodyMeasures& m, const TopFields& top,
             const Neckline& neckline, const ClothRows& rows, shapes::Mesh& onto) {
    add_body_of_top(s, look, m, top.body, neckline, rows, onto);
    for (const std::size_t side : {0u, 1u})
        add_sleeve(s, look, m, top.sleeves[side], top.armholes[side], side, rows, onto);
}

}  // namespace backrow::figures
