#include "figures/body_mesh.h"

#include "figures/flesh.h"
#include "figures/name_hash.h"

#include <glm/common.hpp>
#include <glm/geometric.hpp>

#include <algorithm>
#include <cmath>
#include <vector>

namespace backrow::figures {
namespace {

using glm::dvec3;
using shapes::Mesh;

/// Limbs and trunk as balls drawn out, for asking how much sky a point of the clothes can see.
std::vector<RoundedCone> shading_body(const Skeleton& s, const BodyMeasures& m) {
    const double u = m.stature_m * s.build.flesh;
    std::vector<RoundedCone> all;
    all.push_back(
        {s.hips_m, s.on_trunk({0, 0.9 * s.build.shoulder_up_m, 0}), 0.072 * u, 0.066 * u});
    for (std::size_t side = 0; side < 2; ++side) {
        const Arm& arm = s.arms[side];
        const Leg& leg = s.legs[side];
        all.push_back({arm.shoulder_m, arm.elbow_m, 0.032 * u, 0.028 * u});
        all.push_back(
            {arm.elbow_m, arm.wrist_m + arm.fingers * (0.6 * s.build.hand_m), 0.028 * u, 0.02 * u});
        all.push_back({leg.hip_m, leg.knee_m, 0.050 * u, 0.036 * u});
        all.push_back({leg.knee_m, leg.ankle_m, 0.035 * u, 0.026 * u});
    }
    all.push_back({s.head_m + s.head * dvec3{0, -0.16 * m.head_height_m, 0.12 * m.head_length_m},
                   s.head_m + s.head * dvec3{0, 0.14 * m.head_height_m, 0}, 0.40 * m.head_breadth_m,
                   0.46 * m.head_breadth_m});
    return all;
}

double openness_at(const std::vector<RoundedCone>& body, const dvec3& at, const dvec3& normal,
                   double scale_m) {
    double open = 1;
    for (const double step : {0.035, 0.09}) {
        double nearest = 1e9;
        const dvec3 probe = at + normal * (step * scale_m);
        for (const RoundedCone& part : body)
            nearest = std::min(nearest, part.distance_m(probe));
        open *= std::clamp(0.62 + 0.40 * nearest / (step * scale_m), 0.45, 1.0);
    }
    return std::clamp(open, 0.3, 1.0);
}

void append(const Mesh& part, Mesh& onto) {
    const auto first = static_cast<std::uint32_t>(onto.vertices.size());
    onto.vertices.insert(onto.vertices.end(), part.vertices.begin(), part.vertices.end());
    for (const std::uint32_t i : part.indices)
        onto.indices.push_back(first + i);
}

/// Size of the cells against that of the nearest view.
double coarseness(Detail detail) {
    switch (detail) {
    case Detail::near:
        return 1.0;
    case Detail::middle:
        return 1.75;
    case Detail::far:
        break;
    }
    return 4.2;
}

}  // namespace

void add_body(const Skeleton& s, const Appearance& look, const BodyMeasures& m, Detail detail,
              Mesh& onto) {
    const double u = m.stature_m;
    const double cell = 0.0112 * u * coarseness(detail);
    const std::vector<RoundedCone> body = shading_body(s, m);
    const auto add = [&](const Covering& covering, const dvec3& colour, const dvec3& cell_m) {
        Mesh part =
            shapes::surface_nets(covering.field, {covering.least_m, covering.most_m, cell_m});
        for (shapes::Vertex& v : part.vertices) {
            const dvec3 at{v.position_m};
            v.colour = glm::vec3(glm::clamp(colour, dvec3{0.01}, dvec3{0.9}));
            v.openness = static_cast<float>(openness_at(body, at, dvec3{v.normal}, u / 1.7));
        }
        append(part, onto);
    };
    add(top_of(s, look, m), look.top_colour, dvec3{1, 1.6, 1} * cell);
    add(bottom_of(s, look, m), look.bottom_colour, dvec3{1.25, 2.0, 1.25} * cell);
    add(bare_neck(s, m), look.skin, dvec3{1.0, 1.2, 1.0} * cell);
    for (const int side : {0, 1}) {
        add(bare_arm(s, look, m, side), look.skin, dvec3{0.9} * cell);
        add(bare_leg(s, look, m, side), look.skin, dvec3{1.1, 1.6, 1.1} * cell);
    }
}

}  // namespace backrow::figures
