#include "figures/body/trunk.h"

#include <glm/geometric.hpp>
#include <glm/matrix.hpp>

#include <algorithm>
#include <cmath>

namespace backrow::figures {
namespace {

using glm::dvec3;
using Ring = std::array<double, 7>;

Ring heights(const Skeleton& s, const BodyMeasures& m) {
    const double top = s.build.shoulder_up_m;
    const double u = m.stature_m;
    return {-0.075 * u, -0.005 * u, 0.36 * top, 0.62 * top, 0.82 * top, top, top + 0.022 * u};
}
constexpr std::size_t waist_ring = 2;

Ring breadths(const Skeleton& s, const BodyMeasures& m, bool feminine, double cloth_m,
              double bridged_m) {
    const double u = m.stature_m * s.build.flesh;
    const double grown = 1 - s.build.childhood;
    const double waist = (feminine ? -0.005 : 0.005) * grown;
    const double hip = (feminine ? 0.005 : -0.002) * grown;
    Ring r{0.086 + hip, 0.093 + hip, 0.081 + waist, 0.088, 0.093, 0.075, 0.030};
    for (double& value : r)
        value = value * u + cloth_m;
    r[waist_ring] += bridged_m;
    return r;
}
Ring depths(const BodyMeasures& m, bool feminine, double cloth_m, double bridged_m) {
    const double chest = m.chest_depth_m / 2;
    const double belly = feminine ? 0.84 : 0.90;
    return {0.88 * chest + cloth_m, 0.94 * chest + cloth_m, belly * chest + cloth_m + bridged_m,
            1.00 * chest + cloth_m, 0.90 * chest + cloth_m, 0.60 * chest + cloth_m,
            0.034 * m.stature_m};
}
Ring middles(const BodyMeasures& m, bool feminine) {
    const double u = m.stature_m;
    const double bust = feminine && m.age_years > 13 ? 0.010 : 0.004;
    return {-0.012 * u, -0.012 * u, 0.002 * u, bust * u, 0.002 * u, -0.010 * u, -0.012 * u};
}

}  // namespace

Trunk::Trunk(const Skeleton& s, const BodyMeasures& m, bool feminine, double cloth_m,
             double bridged_m)
    : origin_{s.hips_m}, local_from_figure_{glm::transpose(s.trunk)},
      breadth_{heights(s, m), breadths(s, m, feminine, cloth_m, bridged_m)},
      depth_{heights(s, m), depths(m, feminine, cloth_m, bridged_m)}, middle_{
                                                                          heights(s, m),
                                                                          middles(m, feminine)} {}

double Trunk::distance_m(const dvec3& figure) const {
    const dvec3 p = local_from_figure_ * (figure - origin_);
    const double half_breadth = breadth_.held(p.y);
    const double half_depth = depth_.held(p.y);
    // Between an oval and a box: ribs and shoulder blades are flatter than an ellipse.
    const double x = p.x / half_breadth;
    const double z = (p.z - middle_.held(p.y)) / half_depth;
    const double x2 = x * x, z2 = z * z;
    const double radius = std::sqrt(std::sqrt(x2 * x2 + z2 * z2 + 1.1 * x2 * z2));
    return (radius - 1) * std::min(half_breadth, half_depth);
}

double seat_distance_m(const Skeleton& s, const BodyMeasures& m, const dvec3& p, double cloth) {
    const double u = m.stature_m;
    const dvec3 local =
        glm::transpose(s.pelvis) * (p - s.hips_m) - dvec3{0, -0.012 * u, -0.012 * u};
    const dvec3 radii =
        dvec3{0.088 * u * s.build.flesh, 0.066 * u, 0.068 * u * s.build.flesh} + cloth;
    const dvec3 q = local / radii;
    return (glm::length(q) - 1) * radii.z;
}

double below_seat_m(const Skeleton& s, const dvec3& p) {
    const double forward_m = glm::dot(p - s.hips_m, s.pelvis[2]);
    return std::min(s.seat_m - p.y, 0.8 * s.build.thigh_m - forward_m);
}

}  // namespace backrow::figures
