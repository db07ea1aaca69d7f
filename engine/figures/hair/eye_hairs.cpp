#include "figures/hair/eye_hairs.h"

#include <glm/common.hpp>
#include <glm/geometric.hpp>

#include <algorithm>
#include <cmath>

namespace backrow::figures {

using glm::dvec2;
using glm::dvec3;
using shapes::Mesh;

namespace {

/// A hair as a tapered strip of two triangles and a tip, bent once.
void add_strand(Mesh& mesh, const dvec3& root, const dvec3& bend, const dvec3& tip,
                const dvec3& width, const dvec3& normal, const dvec3& colour) {
    const std::uint32_t a = push(mesh, root - width, normal, colour, 0.8);
    const std::uint32_t b = push(mesh, root + width, normal, colour, 0.8);
    const std::uint32_t c = push(mesh, bend - width * 0.6, normal, colour, 0.9);
    const std::uint32_t d = push(mesh, bend + width * 0.6, normal, colour, 0.9);
    const std::uint32_t e = push(mesh, tip, normal, colour, 0.9);
    // Roots lie in any direction; the side that is seen is the one that the normal points to.
    const bool turned = glm::dot(glm::cross(2.0 * width, bend - root), normal) < 0;
    if (turned)
        mesh.indices.insert(mesh.indices.end(), {a, d, b, a, c, d, c, e, d});
    else
        mesh.indices.insert(mesh.indices.end(), {a, b, d, a, d, c, c, d, e});
}

}  // namespace

void add_lashes(const EyePlace& place, const Appearance& look, Detail detail, Mesh& mesh) {
    const dvec3 colour = glm::mix(look.hair, dvec3{0.015}, 0.75);
    const double length = look.feminine ? 1.15 : 0.85;
    const dvec3 forward = place.forward();
    const auto lid_z = [](double dx, double y) {
        return eye_middle_z_mm + std::max(0.0, eye_shell_mm(dx, y, 1.1));
    };
    const bool close = detail == Detail::close;
    const int upper = close ? 44 : 21;
    for (int i = 0; i < upper; ++i) {
        const double t = (i + 0.5) / upper;
        const double dx = glm::mix(inner_corner_x_mm + 2.5, outer_corner_x_mm - 0.3, t);
        const double y = upper_lid_y_mm(dx);
        const double z = lid_z(dx, y);
        const double long_mm = length * (3.6 + 2.6 * t + 0.5 * wave(i, 3));
        const double fan = 0.5 * (t - 0.40) + 0.08 * wave(i, 2);
        // As the lid comes down its lashes sink with it.
        const double sink = std::clamp(place.head.motion().upper_lid, 0.0, 1.0);
        const dvec3 root = place.varied(dx, y, z);
        add_strand(
            mesh, root,
            root + place.way(fan * long_mm * 0.5, (0.05 - 0.50 * sink) * long_mm, 0.55 * long_mm),
            root + place.way(fan * long_mm, (0.42 - 0.92 * sink) * long_mm, 0.85 * long_mm),
            place.way(close ? 0.17 : 0.34, 0, 0) * place.sign, forward, colour);
    }
    const int lower = close ? 26 : 8;
    for (int i = 0; i < lower; ++i) {
        const double t = (i + 0.5) / lower;
        const double dx = glm::mix(inner_corner_x_mm + 7.0, outer_corner_x_mm - 1.0, t);
        const double y = lower_lid_y_mm(dx);
        const double z = lid_z(dx, y);
        const double long_mm = length * (1.5 + 0.4 * wave(i, 3));
        const dvec3 root = place.varied(dx, y, z);
        add_strand(mesh, root, root + place.way(0.1 * long_mm, -0.25 * long_mm, 0.4 * long_mm),
                   root + place.way(0.25 * long_mm, -0.65 * long_mm, 0.5 * long_mm),
                   place.way(close ? 0.07 : 0.10, 0, 0) * place.sign, forward,
                   glm::mix(colour, look.skin * 0.6, 0.5));
    }
}

std::vector<BrowHair> brow_hairs(const Appearance& look, Detail detail) {
    // Hairs a tenth of a millimetre thick would vanish between the points of the picture.
    const int strands = detail == Detail::close ? 230 : 36;
    const double thick = 1 + 0.28 * look.face.brow_thickness;
    std::vector<BrowHair> hairs;
    for (int i = 0; i < strands; ++i) {
        const double t = (i + 0.5) / strands;
        const double x = glm::mix(brow_inner_x_mm, brow_outer_x_mm - 4, t);
        const double across = std::fmod(i * 0.618034 + 0.11, 1.0) * 2 - 1;
        const double half = brow_half_thickness_mm(x) * thick;
        const double y = brow_y_mm(x) + 0.95 * across * half - 0.3;
        // Upright at the nose, lying outwards along the arc, the upper ones combed down.
        const double angle =
            glm::mix(1.15, -0.16, std::pow(t, 0.5)) - 0.34 * across * (0.5 + t) + 0.16 * wave(i, 7);
        const double long_mm = (5.6 + 1.6 * wave(i, 1)) * glm::mix(0.70, 1.0, t) *
                               (1 - 0.45 * glm::smoothstep(0.72, 1.0, t));
        const dvec2 way{std::cos(angle), std::sin(angle)};
        const auto on_skin = [&](double u, double v, double lift) {
            const double z = face_z_mm(u, v, bare_front_z_mm(u, v));
            return dvec3{u, v, z + lift};
        };
        hairs.push_back(
            {.root_mm = on_skin(x, y, 0.1),
             .bend_mm = on_skin(x + way.x * long_mm * 0.5, y + way.y * long_mm * 0.5, 0.7),
             .tip_mm = on_skin(x + way.x * long_mm, y + way.y * long_mm, 0.45),
             .beside_mm = on_skin(x + 3, y, 0.1),
             .above_mm = on_skin(x, y + 3, 0.1)});
    }
    return hairs;
}

void add_brow(const EyePlace& place, const std::vector<BrowHair>& hairs, const Appearance& look,
              Detail detail, Mesh& mesh) {
    const double half_width_m = detail == Detail::close ? 0.00011 : 0.00026;
    const dvec3 forward = place.forward();
    const auto fitted = [&](const dvec3& at_mm) {
        return place.varied(at_mm.x - model::pupil_x, at_mm.y, at_mm.z);
    };
    for (std::size_t i = 0; i < hairs.size(); ++i) {
        const BrowHair& hair = hairs[i];
        const dvec3 root = fitted(hair.root_mm), tip = fitted(hair.tip_mm);
        const dvec3 along = glm::normalize(tip - root);
        const dvec3 width = glm::normalize(glm::cross(forward, along)) * half_width_m;
        // Hairs lie on the skin and are lit like it.
        const dvec3 skin = glm::cross(fitted(hair.beside_mm) - root, fitted(hair.above_mm) - root);
        add_strand(mesh, root, fitted(hair.bend_mm), tip, -width,
                   glm::normalize(skin) * place.sign + 0.3 * forward,
                   glm::mix(look.hair * (0.70 + 0.25 * wave(static_cast<int>(i), 5)), look.skin,
                            0.12 + 0.40 * place.head.childhood()));
    }
}

}  // namespace backrow::figures
