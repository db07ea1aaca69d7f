#include "figures/body/chest.h"

#include "figures/body/loft.h"

#include <glm/common.hpp>

#include <cmath>
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

}  // namespace

dvec3 Chest::on(dvec2 at_m, double lift_m) const {
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

void Chest::strip(const std::vector<std::array<dvec2, 2>>& pairs, int across, double lift_m,
                  const dvec3& colour, double ambient_visibility, shapes::Mesh& onto) const {
    Loft loft{across, false, {}};
    for (const auto& [left, right] : pairs)
        for (int i = 0; i < across; ++i) {
            const double t = i / (across - 1.0);
            // The edges lie closer to the cloth than the middle.
            const double lift = lift_m * (0.55 + 0.45 * std::sin(std::numbers::pi * t));
            loft.points.push_back({on(glm::mix(left, right, t), lift), colour, ambient_visibility});
        }
    append(loft, onto);
}

void Chest::button(const dvec2& at_m, double radius_m, const dvec3& colour,
                   shapes::Mesh& onto) const {
    const int corners = is_close ? 8 : 5;
    Loft loft{corners, true, {}};
    const dvec3 middle = on(at_m, 0.0075);
    for (const double ring : {0.0, 0.85, 1.0})
        for (int i = 0; i < corners; ++i) {
            const double a = 2 * std::numbers::pi * i / corners;
            const dvec3 off = (skeleton.trunk[0] * std::cos(a) + skeleton.trunk[1] * std::sin(a)) *
                              (ring * radius_m);
            loft.points.push_back(
                {middle + off - skeleton.trunk[2] * (ring > 0.9 ? 0.006 : 0.0), colour, 0.9});
        }
    append(loft, onto);
}

}  // namespace backrow::figures
