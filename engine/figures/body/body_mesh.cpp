#include "figures/body/body_mesh.h"

#include "figures/body/extremities.h"
#include "figures/body/flesh.h"
#include "figures/clothes/cloth.h"
#include "figures/clothes/garments.h"
#include "figures/clothes/headwear.h"
#include "figures/clothes/neckline.h"
#include "figures/clothes/trims.h"

#include "shapes/assemble.h"

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

double ambient_visibility_at(const std::vector<RoundedCone>& body, const dvec3& at,
                             const dvec3& normal, double scale_m) {
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

/// How finely clothes are laid out. What is worn on the head is paid for by the cloth.
ClothRows cloth_rows(const Appearance& look, Detail detail) {
    switch (detail) {
    case Detail::close:
        return {34, 56, 14, 20};
    case Detail::near:
        return worn_on_head(look) > 1 ? ClothRows{11, 20, 5, 9} : ClothRows{13, 24, 5, 10};
    case Detail::middle:
        return worn_on_head(look) > 0 ? ClothRows{7, 12, 2, 6} : ClothRows{7, 16, 2, 6};
    case Detail::far:
        break;
    }
    return {4, 6, 1, 4};
}

}  // namespace

void add_body(const PersonHead& head, const Skeleton& s, const Appearance& look,
              const BodyMeasures& m, Detail detail, Mesh& onto) {
    const bool skirted = look.bottom == Bottom::skirt;
    const TrouserFields trousers = trousers_of(s, look, m);
    const shapes::Field skirt = skirt_of(s, look, m);
    const shapes::Field below = skirted ? skirt : shapes::Field{[&trousers](const dvec3& p) {
        return std::min({trousers.seat(p), trousers.legs[0](p), trousers.legs[1](p)});
    }};
    const TopFields top = top_of(s, look, m, below);
    const shapes::Field neck = neck_of(s, m, look.feminine);
    const Neckline neckline{s, top.body, neck, m.stature_m};
    const ClothRows rows = cloth_rows(look, detail);

    Mesh cloth;
    add_top(s, look, m, top, neckline, rows, cloth);
    if (skirted)
        add_skirt(s, look, m, skirt, rows, cloth);
    else
        add_trousers(s, look, m, trousers, rows, cloth);
    add_bare_skin(s, look, m, neck, rows, cloth);
    const std::vector<RoundedCone> body = shading_body(s, m);
    for (shapes::Vertex& v : cloth.vertices)
        v.ambient_visibility *= static_cast<float>(
            ambient_visibility_at(body, dvec3{v.position_m}, dvec3{v.normal}, m.stature_m / 1.7));
    shapes::append(onto, cloth);

    for (const int side : {0, 1}) {
        add_hand(s, look, m, detail, side, onto);
        add_shoe(s, look, detail, side, onto);
    }
    add_trims(s, look, m, top, neckline, detail, onto);
    add_headwear(head, look, s, m, top.body, neck, detail, onto);
}

}  // namespace backrow::figures
