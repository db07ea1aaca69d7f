#include "figures/clothes/jacket_front.h"

#include "figures/body/loft.h"

#include <glm/common.hpp>
#include <glm/geometric.hpp>
#include <glm/matrix.hpp>

#include <algorithm>
#include <array>
#include <vector>

namespace backrow::figures {
namespace {

using glm::dvec2;
using glm::dvec3;

/// A breast pocket and the flaps of two more.
void add_pockets(const Chest& chest, const dvec3& cloth, double begin_m, double close_m,
                 double low_m, shapes::Mesh& onto) {
    const double u = chest.stature_m;
    const double pocket_m = glm::mix(begin_m, close_m, 0.52);
    chest.strip({{dvec2{0.046 * u, pocket_m + 0.006 * u}, dvec2{0.078 * u, pocket_m + 0.010 * u}},
                 {dvec2{0.046 * u, pocket_m}, dvec2{0.078 * u, pocket_m + 0.004 * u}}},
                5, 0.0040, cloth * 0.88, 0.9, onto);
    const double flap_m = glm::mix(close_m, low_m, 0.62);
    for (const double side : {-1.0, 1.0}) {
        const double inner = side * 0.050 * u, outer = side * 0.086 * u;
        const dvec2 across_m{std::min(inner, outer), std::max(inner, outer)};
        chest.strip(
            {{dvec2{across_m.x, flap_m}, dvec2{across_m.y, flap_m}},
             {dvec2{across_m.x, flap_m - 0.020 * u}, dvec2{across_m.y, flap_m - 0.020 * u}}},
            5, 0.0045, cloth * 0.92, 0.9, onto);
    }
}

}  // namespace

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
            shirt.points.push_back({chest.on({x, up}, 0.0035), look.under_colour, 0.9});
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
        chest.strip(blade, 2 * fine + 1, 0.0125, look.tie_colour, 0.95, onto);
        chest.strip(knot, 2 * fine + 1, 0.0170, look.tie_colour * 1.06, 1.0, onto);
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
    chest.strip(left, 2 * fine + 1, 0.0085, cloth, 1.0, onto);
    chest.strip(right, 2 * fine + 1, 0.0085, cloth, 1.0, onto);
    // The edge of the front.
    std::vector<std::array<dvec2, 2>> edge_line;
    const int steps = fine > 1 ? 8 : 2;
    for (int r = 0; r <= steps; ++r) {
        const double t = r / static_cast<double>(steps);
        const double x = -0.0010 * u - 0.0050 * u * t * t, y = glm::mix(close_m, low_m, t);
        edge_line.push_back({dvec2{x - 0.0015 * u, y}, dvec2{x + 0.0015 * u, y}});
    }
    chest.strip(edge_line, 2, 0.0055, look.top_colour * 0.62, 0.7, onto);
    for (const double share : {0.04, 0.40})
        chest.button({0.006 * u, glm::mix(close_m, low_m, share)}, 0.0055 * u,
                     look.top_colour * 0.45, onto);
    if (chest.is_close)
        add_pockets(chest, look.top_colour, begin_m, close_m, low_m, onto);
}

}  // namespace backrow::figures
