#include "figures/body/tube.h"

#include "figures/body/flesh.h"

#include <glm/common.hpp>
#include <glm/geometric.hpp>

#include <cmath>
#include <numbers>

namespace backrow::figures {

using glm::dvec3;

std::vector<dvec3> carried_along(std::span<const Hoop> hoops, const dvec3& front) {
    std::vector<dvec3> firsts;
    for (const Hoop& hoop : hoops) {
        const dvec3& before = firsts.empty() ? front : firsts.back();
        firsts.push_back(glm::normalize(before - hoop.along * glm::dot(before, hoop.along)));
    }
    return firsts;
}

Loft tube(const shapes::Field& field, std::span<const Hoop> hoops, const dvec3& front,
          double reach_m, int columns, const Lift& lift) {
    Loft loft{columns, true, {}};
    const std::vector<dvec3> firsts = carried_along(hoops, front);
    for (std::size_t h = 0; h < hoops.size(); ++h) {
        const Hoop& hoop = hoops[h];
        const dvec3& first = firsts[h];
        const dvec3 second = glm::cross(first, hoop.along);
        for (int i = 0; i < columns; ++i) {
            const double a = 2 * std::numbers::pi * i / columns;
            const dvec3 out = first * std::cos(a) + second * std::sin(a);
            const double off = hoop.lift_m + (lift ? lift(h, out) : 0.0);
            const double radius = leaves_at(field, hoop.middle_m, out, reach_m);
            dvec3 p = hoop.middle_m + out * std::max(0.0, radius + off);
            loft.points.push_back({p, hoop.colour, hoop.ambient_visibility});
        }
    }
    // Inside a sharp bend hoops cross: there cloth closes in a crease.
    const auto across = static_cast<std::size_t>(columns);
    bool crosses = true;
    for (int pass = 0; pass < 24 && crosses; ++pass) {
        crosses = false;
        for (std::size_t i = across; i < loft.points.size(); ++i) {
            dvec3 &here = loft.points[i].at_m, &before = loft.points[i - across].at_m;
            const Hoop &hoop = hoops[i / across], &last = hoops[i / across - 1];
            const bool goes_on = glm::dot(hoop.middle_m - last.middle_m, hoop.along) > 0;
            if (goes_on && glm::dot(here - before, hoop.along + last.along) < -1e-6) {
                here = before = (here + before) / 2.0;
                crosses = true;
            }
        }
    }
    return loft;
}

std::vector<Hoop> hoops_round_bend(const dvec3& from_m, const dvec3& bend_m, const dvec3& to_m,
                                   double limb_radius_m, int rows_before, int rows_after,
                                   const dvec3& colour) {
    const dvec3 before = glm::normalize(bend_m - from_m), after = glm::normalize(to_m - bend_m);
    const double length_before = glm::distance(from_m, bend_m);
    const double length_after = glm::distance(bend_m, to_m);
    // So far from the bend the two stretches reach into each other on its inside.
    const double half_cos = std::sqrt(std::max(0.02, (1 + glm::dot(before, after)) / 2));
    const double half_tan = std::sqrt(std::max(0.0, 1 - half_cos * half_cos)) / half_cos;
    const double bend_half_m = std::min(limb_radius_m * std::max(0.9, 1.1 * half_tan),
                                        0.8 * std::min(length_before, length_after));
    std::vector<Hoop> hoops;
    const auto add = [&](const dvec3& middle, double beyond_bend_m) {
        const double t = glm::smoothstep(-bend_half_m, bend_half_m, beyond_bend_m);
        hoops.push_back({middle, glm::normalize(glm::mix(before, after, t)), 0, colour, 1});
    };
    for (int r = 0; r < rows_before; ++r) {
        const double share = r / static_cast<double>(rows_before);
        add(glm::mix(from_m, bend_m, share), (share - 1) * length_before);
    }
    for (int r = 0; r <= rows_after; ++r) {
        const double share = r / static_cast<double>(rows_after);
        add(glm::mix(bend_m, to_m, share), share * length_after);
    }
    return hoops;
}

}  // namespace backrow::figures
