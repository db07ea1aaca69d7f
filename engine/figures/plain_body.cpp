#include "figures/plain_body.h"

#include "figures/loft.h"

#include <glm/common.hpp>
#include <glm/geometric.hpp>

#include <array>
#include <cmath>
#include <numbers>
#include <vector>

namespace backrow::figures {
namespace {

using glm::dvec3;

/// A ring's own directions across a line.
struct Across {
    dvec3 a, b;
};

Across across(const dvec3& along) {
    const dvec3 other = std::abs(along.z) < 0.7 ? dvec3{0, 0, 1} : dvec3{1, 0, 0};
    const dvec3 a = glm::normalize(glm::cross(other, along));
    return {a, glm::cross(along, a)};
}

double angle(int i, int columns) {
    return 2 * std::numbers::pi * i / columns;
}

/// Two bones as one tube, from the first's root to the second's end, rounded off at both.
void add_limb(const RoundedCone& first, const RoundedCone& second, const Rings& rings,
              shapes::Mesh& onto) {
    Loft loft{rings.limb_columns, true, {}};
    const dvec3 d1 = glm::normalize(first.to_m - first.from_m);
    const dvec3 d2 = glm::normalize(second.to_m - second.from_m);
    const auto ring = [&](const dvec3& at, const dvec3& along, double radius_m) {
        const Across turn = across(along);
        for (int i = 0; i < rings.limb_columns; ++i) {
            const double a = -angle(i, rings.limb_columns);
            loft.points.push_back(
                {at + (turn.a * std::cos(a) + turn.b * std::sin(a)) * radius_m, dvec3{0.5}, 1});
        }
    };
    ring(first.from_m - d1 * (0.8 * first.from_radius_m), d1, 0.55 * first.from_radius_m);
    for (int r = 0; r < rings.limb_rows; ++r) {
        const double t = r / static_cast<double>(rings.limb_rows);
        ring(glm::mix(first.from_m, first.to_m, t), d1,
             glm::mix(first.from_radius_m, first.to_radius_m, t));
    }
    ring(second.from_m, glm::normalize(d1 + d2), 1.05 * second.from_radius_m);
    for (int r = 1; r <= rings.limb_rows; ++r) {
        const double t = r / static_cast<double>(rings.limb_rows);
        ring(glm::mix(second.from_m, second.to_m, t), d2,
             glm::mix(second.from_radius_m, second.to_radius_m, t));
    }
    ring(second.to_m, d2, 0.0);
    append(loft, onto);
}

/// Rings pressed onto a garment from inside, along a line through it.
void add_wrapped(const shapes::Field& garment, const std::vector<dvec3>& line, const dvec3& forward,
                 int columns, double reach_m, shapes::Mesh& onto) {
    Loft loft{columns, true, {}};
    const dvec3 down = glm::normalize(line.back() - line.front());
    const dvec3 right = glm::normalize(glm::cross(down, forward));
    const dvec3 front = glm::cross(right, down);
    const auto point = [&](const dvec3& middle, int i, double share) {
        const double a = angle(i, columns);
        const dvec3 out = right * std::cos(a) + front * std::sin(a);
        double inside = 0, outside = reach_m;
        for (int k = 0; k < 9; ++k) {
            const double half = (inside + outside) / 2;
            (garment(middle + out * half) < 0 ? inside : outside) = half;
        }
        loft.points.push_back({middle + out * (inside * share), dvec3{0.5}, 1});
    };
    for (int i = 0; i < columns; ++i)
        point(line.front(), i, 0.0);
    for (const dvec3& middle : line)
        for (int i = 0; i < columns; ++i)
            point(middle, i, 1.0);
    for (int i = 0; i < columns; ++i)
        point(line.back(), i, 0.0);
    append(loft, onto);
}

std::vector<dvec3> points_between(const dvec3& from, const dvec3& to, int count) {
    std::vector<dvec3> line;
    for (int i = 0; i < count; ++i)
        line.push_back(glm::mix(from, to, i / (count - 1.0)));
    return line;
}

}  // namespace

shapes::Mesh plain_top(const Skeleton& s, const Appearance& look, const BodyMeasures& m,
                       const Covering& top, const Rings& rings) {
    const double u = m.stature_m;
    shapes::Mesh mesh;
    const dvec3 neck = s.on_trunk({0, s.build.shoulder_up_m + 0.042 * u, -0.014 * u});
    const dvec3 shoulders = s.on_trunk({0, s.build.shoulder_up_m, -0.006 * u});
    const dvec3 hem = s.on_trunk({0, hem_up_m(look, m), -0.006 * u});
    std::vector<dvec3> line{neck, glm::mix(neck, shoulders, 0.5)};
    for (const dvec3& p : points_between(shoulders, hem, rings.trunk_rows))
        line.push_back(p);
    add_wrapped(top.field, line, s.trunk[2], rings.trunk_columns, 0.118 * u * s.build.flesh, mesh);
    const ClothedLimbs limbs = clothed_limbs(s, look, m);
    for (std::size_t side = 0; side < 2; ++side) {
        if (has_short_sleeves(look)) {
            const RoundedCone& sleeve = limbs.forearms[side];
            const dvec3 middle = glm::mix(sleeve.from_m, sleeve.to_m, 0.5);
            const double radius = (sleeve.from_radius_m + sleeve.to_radius_m) / 2;
            add_limb({sleeve.from_m, middle, sleeve.from_radius_m, radius},
                     {middle, sleeve.to_m, radius, sleeve.to_radius_m}, rings, mesh);
        } else {
            add_limb(limbs.upper_arms[side], limbs.forearms[side], rings, mesh);
        }
    }
    return mesh;
}

shapes::Mesh plain_bottom(const Skeleton& s, const Appearance& look, const BodyMeasures& m,
                          const Covering& bottom, const Rings& rings) {
    const double u = m.stature_m;
    shapes::Mesh mesh;
    const dvec3 belt = s.on_trunk({0, belt_up_m(look, m), -0.006 * u});
    const ClothedLimbs limbs = clothed_limbs(s, look, m);
    if (look.bottom == Bottom::skirt) {
        const dvec3 knees = (s.legs[0].knee_m + s.legs[1].knee_m) / 2.0;
        std::vector<dvec3> line{belt};
        for (const dvec3& p : points_between(s.hips_m, knees, rings.trunk_rows))
            line.push_back(p);
        add_wrapped(bottom.field, line, s.pelvis[2] + s.pelvis[1] * 0.5, rings.trunk_columns,
                    0.19 * u * s.build.flesh, mesh);
        return mesh;
    }
    const dvec3 seat = s.hips_m - s.pelvis[1] * (0.050 * u);
    add_wrapped(bottom.field, points_between(belt, seat, 3), s.pelvis[2], rings.trunk_columns,
                0.115 * u * s.build.flesh, mesh);
    for (std::size_t side = 0; side < 2; ++side)
        add_limb(limbs.thighs[side], limbs.shanks[side], rings, mesh);
    return mesh;
}

shapes::Mesh plain_skin(const Skeleton& s, const Appearance& look, const BodyMeasures& m,
                        const Covering& neck, const Rings& rings) {
    const double u = m.stature_m;
    shapes::Mesh mesh;
    add_wrapped(neck.field,
                points_between(s.head_m + s.head * dvec3{0, -0.03 * u, -0.004 * u},
                               s.on_trunk({0, s.build.shoulder_up_m, -0.004 * u}), 3),
                s.head[2], rings.limb_columns, 0.06 * u, mesh);
    const ClothedLimbs limbs = clothed_limbs(s, look, m);
    for (std::size_t side = 0; side < 2; ++side) {
        if (has_short_sleeves(look))
            add_limb(limbs.bare_upper_arms[side], limbs.bare_forearms[side], rings, mesh);
        if (look.bottom == Bottom::skirt) {
            RoundedCone calf = limbs.bare_shanks[side];
            const dvec3 middle = glm::mix(calf.from_m, calf.to_m, 0.35);
            add_limb({calf.from_m, middle, calf.from_radius_m, calf.from_radius_m},
                     {middle, calf.to_m, calf.from_radius_m, calf.to_radius_m}, rings, mesh);
        }
    }
    return mesh;
}

}  // namespace backrow::figures
