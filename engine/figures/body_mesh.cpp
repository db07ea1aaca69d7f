#include "figures/body_mesh.h"

#include "figures/cut.h"
#include "figures/extremities.h"
#include "figures/flesh.h"
#include "figures/headwear.h"
#include "figures/plain_body.h"
#include "figures/trims.h"

#include <glm/common.hpp>
#include <glm/geometric.hpp>

#include <algorithm>
#include <cmath>
#include <utility>
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

/// Leaves out what lies under another garment, but not what shows under its hem from below.
void drop_hidden(Mesh& mesh, const Covering& cover, double depth_m, double under_hem_m) {
    const auto is_hidden = [&](const glm::dvec3& p) {
        return cover.field(p) < -depth_m &&
               (cover.pieces.empty() || cover.cut_at(p).beyond_m(p) < -under_hem_m);
    };
    std::vector<bool> hidden;
    hidden.reserve(mesh.vertices.size());
    for (const shapes::Vertex& v : mesh.vertices)
        hidden.push_back(is_hidden(dvec3{v.position_m}));
    std::vector<std::uint32_t> kept;
    for (std::size_t i = 0; i < mesh.indices.size(); i += 3)
        if (!(hidden[mesh.indices[i]] && hidden[mesh.indices[i + 1]] &&
              hidden[mesh.indices[i + 2]]))
            kept.insert(kept.end(), {mesh.indices[i], mesh.indices[i + 1], mesh.indices[i + 2]});
    mesh.indices = std::move(kept);
}

/// Paints one garment and adds it.
struct Wardrobe {
    const std::vector<RoundedCone>& body;
    double scale_m;
    Mesh& onto;

    void add(Mesh part, const dvec3& colour) const {
        for (shapes::Vertex& v : part.vertices) {
            v.colour = glm::vec3(glm::clamp(colour, dvec3{0.01}, dvec3{0.9}));
            v.openness = static_cast<float>(
                openness_at(body, dvec3{v.position_m}, dvec3{v.normal}, scale_m));
        }
        append(part, onto);
    }
};

/// Cells of the closest figures against those of near ones.
constexpr double close_cell_share = 0.62;

void add_clothes_finely(const Skeleton& s, const Appearance& look, const BodyMeasures& m,
                        const Covering& top, const Covering& bottom, const Covering& neck,
                        Detail detail, const Wardrobe& wardrobe) {
    const double u = m.stature_m;
    // What is worn on the head is paid for by slightly larger cells of cloth.
    // Bent bodies and jackets have more surface for the same number of triangles.
    const double bent = s.legs[0].knee_m.y < 0.4 * u && s.hips_m.y > 0.45 * u ? 1.0 : 1.08;
    const double cell =
        (look.top == Top::jacket ? 0.0214 : 0.0199) * bent * u *
        (detail == Detail::close ? close_cell_share : std::sqrt(1 + 0.15 * worn_on_head(look)));
    const auto add = [&](const Covering& covering, const dvec3& colour, const dvec3& cell_m,
                         const Covering* over) {
        Mesh part =
            shapes::surface_nets(covering.field, {covering.least_m, covering.most_m, cell_m});
        cut_off(covering, part);
        if (over != nullptr)
            drop_hidden(part, *over, 0.003 * u, 0.035 * u);
        wardrobe.add(std::move(part), colour);
    };
    add(top, look.top_colour, dvec3{1, 1.5, 1} * cell, is_tucked(look) ? &bottom : nullptr);
    add(bottom, look.bottom_colour, dvec3{1.20, 2.1, 1.20} * cell,
        is_tucked(look) ? nullptr : &top);
    add(neck, look.skin, dvec3{0.85, 1.4, 0.85} * cell, &top);
    for (const int side : {0, 1}) {
        if (has_short_sleeves(look))
            add(bare_arm(s, look, m, side), look.skin, dvec3{0.8, 1.7, 0.8} * cell, &top);
        add(bare_leg(s, look, m, side), look.skin, dvec3{0.8, 2.2, 0.8} * cell, &top);
    }
}

}  // namespace

void add_body(const PersonHead& head, const Skeleton& s, const Appearance& look,
              const BodyMeasures& m, Detail detail, Mesh& onto) {
    const std::vector<RoundedCone> body = shading_body(s, m);
    const Covering bottom = bottom_of(s, look, m);
    const Covering top = top_of(s, look, m, bottom);
    const Covering neck = bare_neck(s, look, m);
    const Wardrobe wardrobe{body, m.stature_m / 1.7, onto};
    if (is_fine(detail)) {
        add_clothes_finely(s, look, m, top, bottom, neck, detail, wardrobe);
    } else {
        const Rings rings = detail != Detail::middle ? Rings{3, 6, 1, 4}
                            : worn_on_head(look) > 0 ? Rings{6, 14, 2, 6}
                                                     : Rings{7, 16, 2, 7};
        wardrobe.add(plain_top(s, look, m, top, rings), look.top_colour);
        wardrobe.add(plain_bottom(s, look, m, bottom, rings), look.bottom_colour);
        wardrobe.add(plain_skin(s, look, m, neck, rings), look.skin);
    }
    for (const int side : {0, 1}) {
        add_hand(s, look, m, detail, side, onto);
        add_shoe(s, look, detail, side, onto);
    }
    add_trims(s, look, m, top, bottom, neck, detail, onto);
    add_headwear(head, look, s, m, top, neck, detail, onto);
}

}  // namespace backrow::figures
