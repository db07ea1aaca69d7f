#include "figures/head/eyes.h"

#include "figures/hair/eye_hairs.h"
#include "figures/head/head_form.h"
#include "figures/measures/eye_place.h"
#include "figures/skin/skin_detail.h"

#include "base/units.h"

#include <glm/common.hpp>
#include <glm/geometric.hpp>
#include <glm/matrix.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <vector>

namespace backrow::figures {
namespace {

using glm::dvec2;
using glm::dvec3;
using shapes::Mesh;
using shapes::Vertex;

/// A grown eyeball is about 24 mm across. From memory.
constexpr double ball_radius_mm = 12.0;

EyePlace place_of(const PersonHead& head, int side) {
    const double sign = side == 0 ? 1.0 : -1.0;
    const double out = sign * rad_from_deg(head.eye(side).left_deg);
    const double up = rad_from_deg(head.eye(side).up_deg);
    return {head, sign, dvec2{std::sin(out) * std::cos(up), std::sin(up)} * ball_radius_mm,
            dvec2{std::cos(out), std::cos(up)}};
}

dvec3 iris_colour(const dvec3& iris, double share, int spoke) {
    // A lighter collar round the pupil, spokes of fibres, a dark edge.
    const double fibre = 0.14 * wave(spoke, 1) + 0.08 * wave(spoke, 4);
    const double collar = hill((share - 0.48) / 0.2);
    const double edge = glm::smoothstep(0.80, 1.0, share);
    dvec3 c = iris * (1.15 + fibre + 0.55 * collar);
    c = glm::mix(c, iris * 0.22, 0.9 * edge);
    return c;
}

void add_ball(const EyePlace& place, const Appearance& look, Detail detail, Mesh& mesh) {
    const HeadFrame& frame = place.head.frame();
    const int spokes = detail == Detail::close    ? 36
                       : is_fine(detail)          ? 24
                       : detail == Detail::middle ? 14
                                                  : 6;
    const double iris_x = frame.half_iris_m() / frame.eye_scale().x;
    const double iris_y = frame.half_iris_m() / frame.eye_scale().y;
    struct Ring {
        double iris;   ///< Radius in irises, up to the limbus …
        double white;  ///< … then 0 … 1 from there to behind the lids.
    };
    static const std::vector<Ring> fine{{0.33, 0}, {0.37, 0}, {0.48, 0}, {0.64, 0},
                                        {0.80, 0}, {0.93, 0}, {1.0, 0},  {1.07, 0},
                                        {1, 0.35}, {1, 0.7},  {1, 1}};
    static const std::vector<Ring> plain{{0.36, 0}, {0.5, 0}, {0.92, 0}, {1.06, 0}, {1, 1}};
    static const std::vector<Ring> few{{0.5, 0}, {1.0, 0}, {1, 1}};
    const auto& rings = is_fine(detail) ? fine : detail == Detail::middle ? plain : few;
    const dvec2 reach{14.9, 9.2};
    const dvec3 middle = place.plain(0, 0, eye_middle_z_mm);
    const dvec3 white{0.56, 0.53, 0.505};
    const auto vertex = [&](double dx, double y, const dvec3& colour) {
        const dvec3 at =
            place.plain(dx, y, eye_middle_z_mm + std::max(0.2, eye_shell_mm(dx, y, 0)));
        // The lids shade the ball beneath them.
        const double t = std::clamp(dx, inner_corner_x_mm, outer_corner_x_mm);
        const double from_upper = place.upper_edge(t) - y, from_lower = y - place.lower_edge(t);
        const double open = 1 - 0.52 * hill(std::max(0.0, from_upper) / 3.2) -
                            0.25 * hill(std::max(0.0, from_lower) / 1.8) -
                            0.25 * glm::smoothstep(8.0, 14.5, std::abs(dx));
        const dvec2 off_irises =
            (dvec2{dx, y} - place.pupil) / (dvec2{iris_x, iris_y} * place.slant);
        return push(mesh, at, at - middle, colour, std::clamp(open, 0.3, 1.0), eye_uv(off_irises));
    };
    const std::uint32_t pupil = vertex(place.pupil.x, place.pupil.y, dvec3{0.006});
    std::uint32_t inner = pupil;
    for (std::size_t r = 0; r < rings.size(); ++r) {
        const auto first = static_cast<std::uint32_t>(mesh.vertices.size());
        for (int i = 0; i < spokes; ++i) {
            const double a = 2 * std::numbers::pi * i / spokes;
            const dvec2 limbus = dvec2{iris_x, iris_y} * place.slant * rings[r].iris;
            const dvec2 radius = glm::mix(limbus, reach, rings[r].white);
            const dvec2 middle_of_ring = place.pupil * (1 - rings[r].white);
            const double dx = middle_of_ring.x + radius.x * std::cos(a);
            const double y = middle_of_ring.y + radius.y * std::sin(a);
            dvec3 colour;
            if (rings[r].white == 0 && rings[r].iris < 0.345)
                colour = dvec3{0.006};
            else if (rings[r].white == 0 && rings[r].iris <= 1.0)
                colour = iris_colour(look.face.iris, rings[r].iris, i);
            else if (rings[r].white == 0)
                colour = glm::mix(white, look.face.iris, 0.12);
            else {
                // Veined and pinker towards the corners, most at the inner one.
                const double corner = glm::smoothstep(9.0, 15.0, std::abs(dx));
                const dvec3 pink = dx < 0 ? dvec3{0.52, 0.27, 0.24} : dvec3{0.58, 0.44, 0.40};
                colour = glm::mix(white * (1 + 0.02 * wave(i, 2)), pink, 0.8 * corner);
            }
            vertex(dx, y, colour);
        }
        for (int i = 0; i < spokes; ++i) {
            const auto j = static_cast<std::uint32_t>((i + 1) % spokes);
            const auto k = static_cast<std::uint32_t>(i);
            if (r == 0) {
                triangle(mesh, pupil, first + k, first + j, place.sign);
            } else {
                triangle(mesh, inner + k, first + k, first + j, place.sign);
                triangle(mesh, inner + k, first + j, inner + j, place.sign);
            }
        }
        inner = first;
    }
}

/// The window of the cornea is part of a smaller ball: about 7.8 mm in radius. From memory.
constexpr double cornea_radius_mm = 7.8;

/// The sun mirrored in the cornea: where the normal halves the angle between sun and lens. Where
/// the sun is down, behind the head or mirrored beyond the window, the open sky is, larger and
/// dimmer.
void add_glint(const EyePlace& place, const EyeLight& light, Mesh& mesh) {
    const Axes& head = place.head.axes();
    const dvec3 lens = glm::transpose(head) * glm::normalize(light.towards_lens);
    const dvec3 sun = glm::transpose(head) * glm::normalize(light.towards_sun);
    // The middle of the window's ball, and the way the eye looks, towards temple, up and forward.
    const dvec3 gaze =
        glm::normalize(dvec3{place.pupil.x, place.pupil.y,
                             std::sqrt(std::max(1.0, ball_radius_mm * ball_radius_mm -
                                                         glm::dot(place.pupil, place.pupil)))});
    const auto mirrored_at = [&](const dvec3& source) {
        dvec3 half_way = glm::normalize(source + lens);
        half_way.x *= place.sign;
        return half_way;
    };
    const double least_cosine = 0.78;  // The window ends some 39° from its middle.
    dvec3 normal = mirrored_at(sun);
    const bool shows_sun = light.sun_is_up && sun.z > 0.1 && glm::dot(normal, gaze) > least_cosine;
    if (!shows_sun)
        normal = mirrored_at(glm::normalize(lens + glm::transpose(head) * dvec3{0, 0.9, 0}));
    if (glm::dot(normal, gaze) < least_cosine)
        return;
    const HeadFrame& frame = place.head.frame();
    const dvec2 per_m{1 / frame.eye_scale().x, 1 / frame.eye_scale().y};
    const double r = (shows_sun ? 0.15 : 0.22) * frame.half_iris_m();
    const dvec3 colour = shows_sun ? dvec3{1} : dvec3{0.42, 0.47, 0.54};
    const dvec2 at = place.pupil + dvec2{normal - gaze} * cornea_radius_mm;
    const auto vertex = [&](double x, double y) {
        const double dx = at.x + x * per_m.x, up = at.y + y * per_m.y;
        return push(mesh, place.plain(dx, up, eye_middle_z_mm + eye_shell_mm(dx, up, 0.12)),
                    place.forward(), colour, 1);
    };
    const std::uint32_t middle = vertex(0, 0);
    const int corners = 8;
    for (int i = 0; i < corners; ++i) {
        const double a = 2 * std::numbers::pi * i / corners;
        vertex(r * std::cos(a), r * 1.1 * std::sin(a));
    }
    for (std::uint32_t i = 0; i < corners; ++i)
        triangle(mesh, middle, middle + 1 + i, middle + 1 + (i + 1) % corners, place.sign);
}

/// From the edge of the opening back to the ball: the thickness of the lid, wet and pink.
void add_lid_rim(const EyePlace& place, const Appearance& look, const HeadTemplate& form,
                 Mesh& mesh) {
    const auto& rim = form.rims[place.sign > 0 ? 0 : 1];
    const auto n = static_cast<std::uint32_t>(rim.size());
    const auto first = static_cast<std::uint32_t>(mesh.vertices.size());
    const dvec3 wet = look.skin * dvec3{0.80, 0.55, 0.50} + dvec3{0.03, 0.0, 0.0};
    for (const std::uint32_t i : rim) {
        const dvec3 p = form.points_mm[i];
        const double dx = std::abs(p.x) - model::pupil_x;
        const bool upper = p.y > (upper_lid_y_mm(dx) + lower_lid_y_mm(dx)) / 2;
        const dvec3 colour = upper ? look.hair * 0.4 + look.skin * 0.06 : wet;
        const dvec3 edge = place.varied(dx, p.y, p.z);
        const double at_x = std::clamp(dx, inner_corner_x_mm, outer_corner_x_mm);
        const double in_x = dx * 0.985;
        const double in_y = upper ? place.upper_edge(at_x) - 0.35 : place.lower_edge(at_x) + 0.45;
        const dvec3 deep = place.plain(
            in_x, in_y, eye_middle_z_mm + std::max(0.0, eye_shell_mm(in_x, in_y, -0.3)));
        const dvec3 n_out = upper ? dvec3{0, -0.6, 0} : dvec3{0, 0.8, 0};
        push(mesh, edge, place.forward() + n_out, colour, 0.6);
        push(mesh, deep, place.forward() + n_out, colour, 0.5);
    }
    for (std::uint32_t i = 0; i < n; ++i) {
        const std::uint32_t j = (i + 1) % n;
        triangle(mesh, first + 2 * i, first + 2 * i + 1, first + 2 * j, place.sign);
        triangle(mesh, first + 2 * j, first + 2 * i + 1, first + 2 * j + 1, place.sign);
    }
}

/// What wets the eye gathers on the lower lid, in a line that mirrors the sky.
void add_tear_line(const EyePlace& place, Mesh& mesh) {
    constexpr int steps = 18;
    const dvec3 sky{0.60, 0.61, 0.64};
    const auto first = static_cast<std::uint32_t>(mesh.vertices.size());
    for (int i = 0; i <= steps; ++i) {
        const double dx = glm::mix(inner_corner_x_mm + 3.5, outer_corner_x_mm - 2.0, i / 18.0);
        const double edge = place.lower_edge(dx) + 0.42;
        const double high = 0.26 * std::sin(std::numbers::pi * (i + 0.5) / (steps + 1));
        for (const double y : {edge, edge + high}) {
            const dvec3 at =
                place.plain(dx, y, eye_middle_z_mm + std::max(0.2, eye_shell_mm(dx, y, 0.10)));
            push(mesh, at, place.forward() + dvec3{0, 0.7, 0}, sky, 0.8);
        }
    }
    for (std::uint32_t i = 0; i < steps; ++i) {
        const std::uint32_t a = first + 2 * i;
        triangle(mesh, a, a + 2, a + 1, place.sign);
        triangle(mesh, a + 1, a + 2, a + 3, place.sign);
    }
}

void add_eye(const EyePlace& place, const std::vector<BrowHair>& brow, const Appearance& look,
             const HeadTemplate& form, Detail detail, const EyeLight& light, Mesh& onto) {
    if (!place.head.motion().are_eyes_shut())
        add_ball(place, look, detail, onto);
    if (detail == Detail::far)
        return;
    add_lid_rim(place, look, form, onto);
    if (detail == Detail::middle)
        return;
    if (detail == Detail::close && !place.head.motion().are_eyes_shut())
        add_tear_line(place, onto);
    if (place.head.motion().upper_lid < 0.6)
        add_glint(place, light, onto);
    add_lashes(place, look, detail, onto);
    add_brow(place, brow, look, detail, onto);
}

}  // namespace

void add_eyes(const PersonHead& head, const Appearance& look, const HeadTemplate& form,
              Detail detail, const EyeLight& light, Mesh& onto) {
    const std::vector<BrowHair> brow =
        is_fine(detail) ? brow_hairs(look, detail) : std::vector<BrowHair>{};
    for (const int side : {0, 1})
        add_eye(place_of(head, side), brow, look, form, detail, light, onto);
}

}  // namespace backrow::figures
