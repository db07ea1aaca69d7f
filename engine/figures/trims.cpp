#include "figures/trims.h"

#include "figures/collars.h"
#include "figures/garments.h"
#include "figures/loft.h"

#include <glm/common.hpp>
#include <glm/geometric.hpp>
#include <glm/matrix.hpp>

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
    bool is_close;

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
        const int corners = is_close ? 8 : 5;
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

/// Lapels over a shirt with a tie or buttons, and the jacket's own buttons.
/// close_m   height at which the jacket closes; low_m   its hem in front
void add_jacket_front(const Chest& chest, const Appearance& look, const Neckline& line,
                      double close_m, double low_m, int fine, shapes::Mesh& onto) {
    const Skeleton& s = chest.skeleton;
    const double u = chest.stature_m;
    const auto on_trunk = [&](const dvec3& p) { return glm::transpose(s.trunk) * (p - s.hips_m); };
    // The shirt: from the neckline, under its collar, down to the button.
    const int across = 4 * fine + 1, down = 5 * fine;
    const double half_open_rad = 1.0;
    Loft shirt{across, false, {}};
    std::vector<dvec3> top;
    for (int i = 0; i < across; ++i) {
        const Neckline::Place place = line.at(half_open_rad * (2.0 * i / (across - 1) - 1));
        top.push_back(on_trunk(place.at_m));
        shirt.points.push_back({place.at_m + s.trunk[1] * (0.004 * u) + place.out * (0.001 * u),
                                look.under_colour, 0.7});
    }
    const double begin_m = top[static_cast<std::size_t>(across / 2)].y;
    const auto half_width = [&](double up_m) {
        return u * 0.036 * glm::clamp((up_m - close_m) / (begin_m - close_m), 0.0, 1.0) +
               0.0006 * u;
    };
    for (int r = 1; r <= down; ++r)
        for (int i = 0; i < across; ++i) {
            const double t = r / static_cast<double>(down), side = 2.0 * i / (across - 1) - 1;
            const dvec3& from = top[static_cast<std::size_t>(i)];
            const double up = glm::mix(from.y - 0.006 * u, close_m, t);
            const double x = glm::mix(from.x, side * half_width(up), std::min(1.0, 2.5 * t));
            shirt.points.push_back({chest.on({x, up}, 0.0055), look.under_colour, 0.9});
        }
    append(shirt, onto);
    const double knot_m = begin_m - 0.004 * u;
    if (look.tie) {
        const auto wide = [&](double up_m) {
            const double own = glm::mix(0.0075, 0.0150, (knot_m - up_m) / (0.16 * u));
            return std::min(own * u, half_width(up_m) + 0.001 * u);
        };
        std::vector<std::array<dvec2, 2>> blade, knot;
        for (int r = 0; r <= 3 * fine; ++r) {
            const double y = glm::mix(knot_m - 0.008 * u, close_m, r / (3.0 * fine));
            blade.push_back({dvec2{-wide(y), y}, dvec2{wide(y), y}});
        }
        for (const auto& [below, half] : {std::array{-0.007, 0.0120},
                                          {0.000, 0.0128},
                                          {0.010, 0.0105},
                                          {0.017, 0.0085},
                                          {0.019, 0.0060}})
            knot.push_back(
                {dvec2{-half * u, knot_m - below * u}, dvec2{half * u, knot_m - below * u}});
        chest.strip(blade, 2 * fine + 1, 0.0160, look.tie_colour, 0.95, onto);
        chest.strip(knot, 2 * fine + 1, 0.0225, look.tie_colour * 1.06, 1.0, onto);
    } else if (fine > 1) {
        for (const double share : {0.28, 0.62})
            chest.button({0, glm::mix(begin_m, close_m, share)}, 0.0032 * u,
                         look.under_colour * 0.8, onto);
    }
    // Lapels: how wide they are on the way down, with the notch near the top.
    struct Edge {
        double share, flap;
    };
    static constexpr Edge lapel[] = {{0.00, 0.020},  {0.16, 0.026},  {0.215, 0.030}, {0.225, 0.021},
                                     {0.26, 0.0235}, {0.262, 0.037}, {0.45, 0.034},  {0.70, 0.024},
                                     {0.90, 0.011},  {1.00, 0.001}};
    const double lapel_top_m = begin_m + 0.022 * u;
    const dvec3 cloth = look.top_colour * 1.10;
    std::vector<std::array<dvec2, 2>> left, right;
    for (const Edge& edge : lapel) {
        const double y = glm::mix(lapel_top_m, close_m, edge.share);
        const double w = half_width(y) + 0.0025 * u * (1 - edge.share), flap = edge.flap * u;
        const double rise = 0.25 * flap;
        right.push_back({dvec2{-w - flap, y + rise}, dvec2{-w + 0.002 * u, y}});
        left.push_back({dvec2{w - 0.002 * u, y}, dvec2{w + flap, y + rise}});
    }
    chest.strip(left, 2 * fine + 1, 0.0120, cloth, 1.0, onto);
    chest.strip(right, 2 * fine + 1, 0.0120, cloth, 1.0, onto);
    // Left over right: the edge of the front, and the breast pocket.
    const dvec3 dark = look.top_colour * 0.62;
    chest.strip({{dvec2{-0.0025 * u, close_m}, dvec2{0.0005 * u, close_m}},
                 {dvec2{-0.003 * u, glm::mix(close_m, low_m, 0.5)},
                  dvec2{0.000, glm::mix(close_m, low_m, 0.5)}},
                 {dvec2{-0.008 * u, low_m + 0.002 * u}, dvec2{-0.004 * u, low_m + 0.002 * u}}},
                2, 0.0045, dark, 0.7, onto);
    for (const double share : {0.04, 0.40})
        chest.button({0.006 * u, glm::mix(close_m, low_m, share)}, 0.0055 * u,
                     look.top_colour * 0.45, onto);
    if (chest.is_close) {
        const double pocket_m = glm::mix(begin_m, close_m, 0.52);
        chest.strip(
            {{dvec2{0.046 * u, pocket_m + 0.006 * u}, dvec2{0.078 * u, pocket_m + 0.010 * u}},
             {dvec2{0.046 * u, pocket_m}, dvec2{0.078 * u, pocket_m + 0.004 * u}}},
            5, 0.0040, look.top_colour * 0.88, 0.9, onto);
        const double flap_m = glm::mix(close_m, low_m, 0.62);
        for (const double side : {-1.0, 1.0}) {
            const double inner = side * 0.050 * u, outer = side * 0.086 * u;
            const dvec2 across_m{std::min(inner, outer), std::max(inner, outer)};
            chest.strip(
                {{dvec2{across_m.x, flap_m}, dvec2{across_m.y, flap_m}},
                 {dvec2{across_m.x, flap_m - 0.020 * u}, dvec2{across_m.y, flap_m - 0.020 * u}}},
                5, 0.0045, look.top_colour * 0.92, 0.9, onto);
        }
    }
}

}  // namespace

void add_trims(const Skeleton& s, const Appearance& look, const BodyMeasures& m,
               const TopFields& top, const Neckline& neckline, Detail detail, shapes::Mesh& onto) {
    if (detail == Detail::far)
        return;
    const double u = m.stature_m;
    const int fine = is_fine(detail) ? 2 : 1;
    // Shirt fronts run up over the throat.
    const shapes::Field front = [&](const dvec3& p) {
        return std::min(top.body(p), neckline.neck(p));
    };
    const Chest chest{s, front, u, detail == Detail::close};
    const bool jacket = look.top == Top::jacket;
    const bool collared = jacket || look.top == Top::shirt || look.top == Top::blouse;

    // Under a headscarf no collar is seen.
    if (look.headwear != Headwear::headscarf) {
        if (jacket) {
            add_shirt_collar(neckline, look.under_colour, look.tie ? 0.16 : 0.34, 10 * fine, onto);
            add_jacket_collar(neckline, look.top_colour * 1.08, 8 * fine, onto);
        } else if (collared) {
            add_shirt_collar(neckline, look.top_colour * 1.05, 0.26, 11 * fine, onto);
        } else {
            add_neckband(neckline, look.top_colour * (look.top == Top::jumper ? 0.88 : 0.94),
                         11 * fine, onto);
        }
    }

    const double throat = s.build.shoulder_up_m - 0.012 * u;
    const bool tucked = is_tucked(look);
    const double low = tucked ? belt_up_m(look, m) : hem_up_m(s, look, m, 0.0);
    if (jacket) {
        add_jacket_front(chest, look, neckline, 0.36 * s.build.shoulder_up_m, low, fine, onto);
    } else if (collared) {
        const double w = 0.009 * u;
        std::vector<std::array<dvec2, 2>> placket;
        const auto up_trunk = [&](const dvec3& p) { return glm::dot(p - s.hips_m, s.trunk[1]); };
        const double band_m = up_trunk(neckline.at(0).at_m);
        const double end_m = low - (tucked ? 0.006 : 0.0) * u;
        const int rows = detail == Detail::close ? 24 : detail == Detail::near ? 12 : 6;
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
