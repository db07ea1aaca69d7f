#include "figures/head/head_mesh.h"

#include "figures/head/eyes.h"
#include "figures/head/head_form.h"
#include "figures/head/head_template.h"
#include "figures/head/mouth.h"
#include "figures/skin/skin_detail.h"

#include <glm/common.hpp>
#include <glm/geometric.hpp>

#include <algorithm>
#include <cmath>

namespace backrow::figures {
namespace {

using glm::dvec3;

/// 0 … 1, unrelated between neighbours.
double speckle(std::uint32_t index) {
    std::uint32_t h = index * 2654435761u;
    h ^= h >> 15;
    h *= 2246822519u;
    h ^= h >> 13;
    return h / 4294967295.0;
}

dvec3 skin_colour(const Appearance& look, const FaceMotion& motion, const Paint& paint,
                  const dvec3& at_mm, std::uint32_t index, const BodyMeasures& measures,
                  Detail detail) {
    // Wide triangles would smear the brows over the lids.
    const double brow_share = (is_fine(detail) ? 1.0 : 0.5) *
                              glm::mix(0.6, 1.0, glm::smoothstep(4.0, 14.0, measures.age_years));
    const double dark = 1 - glm::smoothstep(0.05, 0.35, look.skin.g);
    dvec3 c = look.skin;
    c *= 1 + 0.035 * paint.blotches + 0.03 * (speckle(index) - 0.5);
    const dvec3 flushed = c * dvec3{1.04, 0.70, 0.66};
    c = glm::mix(c, flushed, std::min(1.0, paint.blush) * glm::mix(0.55, 0.30, dark));
    c = glm::mix(c, c * dvec3{0.72, 0.56, 0.54}, paint.lid_shade * 0.75);
    if (look.face.freckles > 0 && at_mm.y < 8 && at_mm.y > -60 && at_mm.z > 30) {
        const double spot =
            glm::smoothstep(1 - 0.28 * look.face.freckles, 1.0, speckle(index * 31 + 7));
        c = glm::mix(c, c * dvec3{0.74, 0.58, 0.46}, 0.8 * spot * (1 - paint.lips));
    }
    if (!look.feminine && measures.age_years > 17)
        c = glm::mix(c, c * dvec3{0.80, 0.80, 0.84}, 0.75 * paint.beard * (1 - paint.lips));
    // Seen small, a beard is painted only.
    if (look.beard && detail == Detail::far)
        c = glm::mix(c, look.hair * 0.8, 0.9 * paint.beard * (1 - paint.lips));
    c = glm::mix(c, look.lips * (1 + 0.05 * paint.fine_blotches),
                 paint.lips * (look.feminine ? 0.92 : 0.70));
    // Lips that part show no line between them.
    c = glm::mix(c, c * dvec3{0.34, 0.22, 0.21},
                 (motion.is_mouth_open() ? 0.30 : 0.85) * paint.mouth_line);
    c = glm::mix(c, c * dvec3{0.22, 0.14, 0.13}, 0.9 * paint.nostril);
    c = glm::mix(c, look.hair * 0.7 + look.skin * 0.12,
                 paint.brow * (0.62 + 0.12 * look.face.brow_thickness) * brow_share);
    c = glm::mix(c, look.hair * 0.35 + look.skin * dvec3{0.16, 0.10, 0.09}, 0.72 * paint.lid_edge);
    if (look.hair_style != HairStyle::none)
        c = glm::mix(c, look.hair * 0.8, 0.9 * paint.scalp);
    // Some of the shade is painted, so that features show in the flattest light.
    c *= glm::mix(1.0, paint.ambient_visibility, 0.45);
    return glm::clamp(c, dvec3{0.004}, dvec3{0.95});
}

/// Adds the points used by the triangles, and the triangles.
void add_part(const std::vector<shapes::Vertex>& vertices,
              const std::vector<std::array<std::uint32_t, 3>>& triangles, shapes::Mesh& onto) {
    constexpr std::uint32_t unused = ~std::uint32_t{0};
    std::vector<std::uint32_t> placed(vertices.size(), unused);
    for (const auto& t : triangles)
        for (const std::uint32_t i : t) {
            if (placed[i] == unused) {
                placed[i] = static_cast<std::uint32_t>(onto.vertices.size());
                onto.vertices.push_back(vertices[i]);
            }
            onto.indices.push_back(placed[i]);
        }
}

}  // namespace

void add_head(const PersonHead& head, const Appearance& look, const BodyMeasures& measures,
              Detail detail, const EyeLight& light, FigureMesh& onto) {
    const HeadTemplate& form = head_template(detail);
    const std::size_t count = form.points_mm.size();
    std::vector<dvec3> at(count);
    for (std::size_t i = 0; i < count; ++i)
        at[i] = head.figure_from_model(form.points_mm[i]);

    std::vector<dvec3> normal(count, dvec3{0});
    for (const auto* part : {&form.face, &form.skull})
        for (const auto& t : *part) {
            const dvec3 n = glm::cross(at[t[1]] - at[t[0]], at[t[2]] - at[t[0]]);
            for (const std::uint32_t i : t)
                normal[i] += n;
        }

    std::vector<shapes::Vertex> skin(count);
    for (std::size_t i = 0; i < count; ++i) {
        const double length = glm::length(normal[i]);
        skin[i].position_m = glm::vec3(at[i]);
        skin[i].normal = length > 0 ? glm::vec3(normal[i] / length) : glm::vec3{0, 0, 1};
        skin[i].colour =
            glm::vec3(skin_colour(look, head.motion(), form.paint[i], form.points_mm[i],
                                  static_cast<std::uint32_t>(i), measures, detail));
        skin[i].ambient_visibility =
            static_cast<float>(std::clamp(form.paint[i].ambient_visibility, 0.25, 1.0));
        skin[i].uv = face_uv(form.plane_mm[i]);
    }
    add_part(skin, form.face, onto.face);
    // Under a headscarf nothing of it is seen.
    if (look.headwear != Headwear::headscarf)
        add_part(skin, form.skull, onto.body);
    add_eyes(head, look, form, detail, light, onto.face);
    if (head.motion().is_mouth_open())
        add_mouth(head, look, form, measures, detail, onto.face);
}

}  // namespace backrow::figures
