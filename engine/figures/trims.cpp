#include "figures/trims.h"

#include "figures/loft.h"

#include <glm/common.hpp>
#include <glm/geometric.hpp>

#include <array>
#include <cmath>
#include <initializer_list>
#include <numbers>

namespace backrow::figures {
namespace {

using glm::dvec2;
using glm::dvec3;

/// Where a ray from outside first meets the garment; `reach` if it never does.
double meets_at(const shapes::Field& field, const dvec3& from, const dvec3& along, double reach) {
    double t = 0;
    for (int i = 0; i < 40 && t < reach; ++i) {
        const double d = field(from + along * t);
        if (d < 0.0004)
            return t;
        t += 0.8 * d;
    }
    return reach;
}

/// A sheet over the chest: points across and up the trunk, laid on from the front.
struct Chest {
    const Skeleton& skeleton;
    const shapes::Field& field;
    double stature_m;

    [[nodiscard]] dvec3 on(dvec2 at_m, double lift_m) const {
        const double start_m = 0.16 * stature_m;
        const double reach_m = 2 * start_m;
        // What would stand above the shoulder lies on it.
        for (const double lowest_m = at_m.y - 0.05 * stature_m;; at_m.y -= 0.004 * stature_m) {
            const dvec3 from = skeleton.on_trunk({at_m.x, at_m.y, start_m});
            const double t = meets_at(field, from, -skeleton.trunk[2], reach_m);
            if (t < reach_m || at_m.y < lowest_m)
                return from - skeleton.trunk[2] * (t - lift_m);
        }
    }

    /// A strip between two lines, `across` points wide, from the first pair down.
    void strip(const std::vector<std::array<dvec2, 2>>& pairs, int across, double lift_m,
               const dvec3& colour, double openness, shapes::Mesh& onto) const {
        Loft loft{across, false, {}};
        for (const auto& [left, right] : pairs)
            for (int i = 0; i < across; ++i) {
                const double t = i / (across - 1.0);
                // The edges lie closer to the cloth than the middle.
                const double lift = lift_m * (0.55 + 0.45 * std::sin(std::numbers::pi * t));
                loft.points.push_back({on(glm::mix(left, right, t), lift), colour, openness});
            }
        append(loft, onto);
    }

    void button(const dvec2& at_m, double radius_m, const dvec3& colour, shapes::Mesh& onto) const {
        const int corners = 8;
        Loft loft{corners, true, {}};
        const dvec3 middle = on(at_m, 0.0075);
        for (const double ring : {0.0, 0.85, 1.0})
            for (int i = 0; i < corners; ++i) {
                const double a = 2 * std::numbers::pi * i / corners;
                const dvec3 off =
                    (skeleton.trunk[0] * std::cos(a) + skeleton.trunk[1] * std::sin(a)) *
                    (ring * radius_m);
                loft.points.push_back(
                    {middle + off - skeleton.trunk[2] * (ring > 0.9 ? 0.006 : 0.0), colour, 0.9});
            }
        append(loft, onto);
    }
};

/// Where the neck leaves the garment, all round.
struct Neckline {
    const Skeleton& skeleton;
    const shapes::Field& garment;
    const shapes::Field& neck;
    double stature_m;

    struct Place {
        dvec3 at_m, out;
    };

    /// around_rad: 0 in front, towards the left.
    [[nodiscard]] Place at(double around_rad) const {
        const dvec3 out =
            skeleton.trunk[0] * std::sin(around_rad) + skeleton.trunk[2] * std::cos(around_rad);
        const double reach = 0.08 * stature_m;
        const auto on_neck = [&](double height) {
            const dvec3 axis = skeleton.on_trunk({0, height, -0.006 * stature_m});
            return axis + out * leaves_at(neck, axis, out, reach);
        };
        double low = skeleton.build.shoulder_up_m - 0.015 * stature_m;
        double high = low + 0.09 * stature_m;
        for (int i = 0; i < 9; ++i) {
            const double middle = (low + high) / 2;
            (garment(on_neck(middle)) < 0 ? low : high) = middle;
        }
        return {on_neck(low), out};
    }
};

void add_collar(const Neckline& line, const dvec3& colour, bool folded, int columns,
                shapes::Mesh& onto) {
    const double u = line.stature_m;
    // A folded collar is open in front; a ribbed band runs all round.
    const double open_rad = folded ? 0.30 : 0.0;
    Loft loft{columns, !folded, {}};
    struct Row {
        double above, off, openness;
    };
    const std::array<Row, 4> stand{
        {{-0.008, 0.016, 0.8}, {0.004, 0.009, 1.0}, {0.007, 0.004, 1.0}, {0.003, 0.000, 0.6}}};
    const std::array<Row, 4> fold{
        {{0.000, 0.002, 0.6}, {0.013, 0.002, 0.9}, {0.0125, 0.005, 1.0}, {-0.006, 0.015, 0.9}}};
    std::vector<Neckline::Place> places;
    std::vector<double> fronts;
    for (int i = 0; i < columns; ++i) {
        const double share = folded ? i / (columns - 1.0) : i / static_cast<double>(columns);
        const double around = open_rad + share * (2 * std::numbers::pi - 2 * open_rad);
        places.push_back(line.at(around));
        // The points of the collar hang lower in front.
        fronts.push_back(std::pow(0.5 + 0.5 * std::cos(around), 6.0));
    }
    for (const Row& row : folded ? fold : stand)
        for (std::size_t i = 0; i < places.size(); ++i) {
            const double point = folded && row.off > 0.01 ? -0.010 * fronts[i] : 0.0;
            loft.points.push_back({places[i].at_m +
                                       line.skeleton.trunk[1] * ((row.above + point) * u) +
                                       places[i].out * (row.off * u * 0.7),
                                   colour, row.openness});
        }
    if (folded) {
        append(loft, onto);
        return;
    }
    // The band's rows run upwards.
    Loft turned{columns, true, {}};
    for (int r = 3; r >= 0; --r)
        for (int i = 0; i < columns; ++i)
            turned.points.push_back(loft.points[static_cast<std::size_t>(r * columns + i)]);
    append(turned, onto);
}

}  // namespace

void add_edge(const shapes::Field& garment, const Edge& edge, const dvec3& colour, int columns,
              shapes::Mesh& onto) {
    const dvec3 side = glm::cross(edge.inwards, edge.start);
    Loft loft{columns, true, {}};
    struct Row {
        double along, out, openness;
    };
    const double w = edge.width_m, o = edge.stand_out_m;
    const std::array<Row, 4> rows{
        {{w, -0.6 * o, 0.8}, {0.9 * w, o, 1.0}, {-0.12 * w, o, 0.85}, {-0.10 * w, -2.5 * o, 0.5}}};
    std::vector<double> radius;
    for (int i = 0; i < columns; ++i) {
        const double a = 2 * std::numbers::pi * i / columns;
        const dvec3 out = edge.start * std::cos(a) + side * std::sin(a);
        radius.push_back(
            leaves_at(garment, edge.middle_m + edge.inwards * (0.7 * w), out, edge.reach_m));
    }
    for (const Row& row : rows)
        for (int i = 0; i < columns; ++i) {
            const double a = 2 * std::numbers::pi * i / columns;
            const dvec3 out = edge.start * std::cos(a) + side * std::sin(a);
            loft.points.push_back({edge.middle_m + edge.inwards * row.along +
                                       out * (radius[static_cast<std::size_t>(i)] + row.out),
                                   colour, row.openness});
        }
    append(loft, onto);
}

void add_trims(const Skeleton& s, const Appearance& look, const BodyMeasures& m,
               const Covering& top, const Covering& bottom, const Covering& neck, Detail detail,
               shapes::Mesh& onto) {
    if (detail == Detail::far)
        return;
    const double u = m.stature_m;
    const int fine = is_fine(detail) ? 2 : 1;
    // Shirt fronts run up over the throat.
    const shapes::Field front = [&](const dvec3& p) {
        return std::min(top.field(p), neck.field(p));
    };
    const Chest chest{s, front, u};
    const Neckline neckline{s, top.field, neck.field, u};
    const bool jacket = look.top == Top::jacket;
    const bool collared = jacket || look.top == Top::shirt || look.top == Top::blouse;

    const dvec3 hem_colour = look.top_colour * (look.top == Top::jumper ? 0.86 : 0.93);
    const double band = (look.top == Top::jumper ? 0.026 : 0.012) * u;
    const double out = 0.0011 * u;
    const bool tucked = is_tucked(look);
    if (tucked) {
        add_edge(bottom.field,
                 {s.on_trunk({0, belt_up_m(look, m) - 0.016 * u, -0.008 * u}), s.trunk[1],
                  s.trunk[2], 0.17 * u, 0.016 * u, out},
                 look.bottom_colour * 0.85, 14 * fine, onto);
    } else {
        const Cut hem = hem_cut(s, look, m);
        // The body alone: hands hang beside it.
        add_edge(top.pieces.front().field,
                 {hem.at_m, -hem.away, glm::cross(s.trunk[0], -hem.away), 0.17 * u, band, out},
                 hem_colour, 14 * fine, onto);
    }
    for (std::size_t side = 0; side < 2; ++side) {
        const RoundedCone sleeve = sleeve_end(s, look, m, static_cast<int>(side));
        const dvec3 up = glm::normalize(sleeve.from_m - sleeve.to_m);
        const dvec3 across = glm::normalize(glm::cross(up, s.trunk[2] + dvec3{0.1, 0.2, 0}));
        const shapes::Field& cloth = top.pieces[side + 1].field;
        add_edge(cloth, {sleeve.to_m, up, across, 0.055 * u, 0.9 * band + 0.004 * u, out},
                 hem_colour, 6 * fine, onto);
        if (jacket)
            add_edge(cloth,
                     {sleeve.to_m - up * (0.008 * u), up, across, 0.055 * u, 0.010 * u, -1.5 * out},
                     look.under_colour, 6 * fine, onto);
        if (look.bottom == Bottom::trousers) {
            const Leg& leg = s.legs[side];
            const dvec3 shin = glm::normalize(leg.knee_m - leg.ankle_m);
            add_edge(bottom.field,
                     {glm::mix(leg.knee_m, leg.ankle_m, 1.0), shin,
                      glm::normalize(glm::cross(shin, s.pelvis[0] + dvec3{0.01, 0.02, 0.01})),
                      0.07 * u, 0.030 * u, out},
                     look.bottom_colour * 0.92, 6 * fine, onto);
        }
    }
    // The neckband runs all round; a folded collar is open in front of it.
    // Under a headscarf neither is seen.
    const bool veiled = look.headwear == Headwear::headscarf;
    if (collared && !jacket && !veiled)
        add_collar(neckline, look.top_colour, false, 11 * fine, onto);
    if (!veiled)
        add_collar(neckline,
                   jacket     ? look.under_colour
                   : collared ? look.top_colour * 1.06
                              : hem_colour,
                   collared, 11 * fine, onto);

    const double throat = s.build.shoulder_up_m - 0.012 * u;
    const double low = hem_up_m(look, m) + 0.02 * u;
    if (jacket) {
        const double close = 0.36 * s.build.shoulder_up_m;
        const dvec3 lapel = look.top_colour * 1.12;
        std::vector<std::array<dvec2, 2>> shirt, left, right;
        for (int i = 0; i <= 7; ++i) {
            const double t = i / 7.0;
            const double y = glm::mix(throat + 0.034 * u, close, t);
            const double w = 0.034 * u * (1 - t) + 0.0005 * u;
            const double flap =
                u * (0.030 * std::sin(std::numbers::pi * std::min(1.0, 0.30 + 0.7 * t)) +
                     0.006 * (1 - t));
            shirt.push_back({dvec2{-w, y}, dvec2{w, y}});
            right.push_back({dvec2{-w - flap, y + 0.3 * flap}, dvec2{-w + 0.001 * u, y}});
            left.push_back({dvec2{w - 0.001 * u, y}, dvec2{w + flap, y + 0.3 * flap}});
        }
        chest.strip(shirt, 2 * fine + 1, 0.0070, look.under_colour, 0.85, onto);
        chest.strip(left, 3, 0.0115, lapel, 1.0, onto);
        chest.strip(right, 3, 0.0115, lapel, 1.0, onto);
        chest.strip({{dvec2{-0.002 * u, close}, dvec2{0.003 * u, close}},
                     {dvec2{-0.002 * u, (close + low) / 2}, dvec2{0.003 * u, (close + low) / 2}},
                     {dvec2{-0.006 * u, low - 0.012 * u}, dvec2{-0.001 * u, low - 0.012 * u}}},
                    2, 0.006, look.top_colour * 0.45, 0.6, onto);
        for (const double share : {0.08, 0.45})
            chest.button({-0.004 * u, glm::mix(close, low, share)}, 0.006 * u,
                         look.top_colour * 0.4, onto);
    } else if (collared) {
        const double w = 0.009 * u;
        std::vector<std::array<dvec2, 2>> placket;
        const auto up_trunk = [&](const dvec3& p) { return glm::dot(p - s.hips_m, s.trunk[1]); };
        const double band_m = up_trunk(neckline.at(0).at_m);
        // Over a lap the hem is higher in front, a chest's half depth before the trunk's axis.
        const Cut hem = hem_cut(s, look, m);
        const double rise = -glm::dot(hem.away, s.trunk[2]) / glm::dot(hem.away, s.trunk[1]);
        const double end_m =
            tucked ? low - 0.012 * u : up_trunk(hem.at_m) + (0.07 * rise + 0.004) * u;
        const int rows = detail == Detail::close ? 14 : 6;
        for (int i = 0; i <= rows; ++i) {
            const double y = glm::mix(band_m, end_m, i / static_cast<double>(rows));
            placket.push_back({dvec2{-w, y}, dvec2{w, y}});
        }
        chest.strip(placket, 3, 0.0065, look.top_colour * 1.05, 1.0, onto);
        if (is_fine(detail))
            for (int i = 0; i < 5; ++i)
                chest.button({0, glm::mix(throat - 0.022 * u, end_m + 0.020 * u, i / 4.0)},
                             0.0034 * u, look.under_colour, onto);
    }
}

}  // namespace backrow::figures
