#include "figures/eyes.h"

#include "figures/head_form.h"

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

/// One eye: offsets from the pupil, + towards the temple and up, in modelled millimetres.
struct Place {
    const PersonHead& head;
    double sign;     ///< +1 for the left eye.
    dvec2 pupil{0};  ///< Where the eye looks, on the ball.
    dvec2 slant{1};  ///< How much narrower and lower the iris then is.

    [[nodiscard]] dvec3 plain(double dx, double y, double z) const {
        return head.figure_from_plain_model({sign * (model::pupil_x + dx), y, z});
    }
    [[nodiscard]] dvec3 varied(double dx, double y, double z) const {
        return head.figure_from_model({sign * (model::pupil_x + dx), y, z});
    }
    [[nodiscard]] dvec3 forward() const {
        return glm::normalize(plain(0, 0, model::cornea_z + 10) - plain(0, 0, model::cornea_z));
    }
    /// A small way from a point, free of the lids' motion.
    [[nodiscard]] dvec3 way(double dx, double y, double z) const {
        return plain(dx, y, model::cornea_z + z) - plain(0, 0, model::cornea_z);
    }
    [[nodiscard]] double upper_edge(double dx) const { return upper_edge_y_mm(dx, head.motion()); }
    [[nodiscard]] double lower_edge(double dx) const { return lower_edge_y_mm(dx, head.motion()); }
};

/// A grown eyeball is about 24 mm across. From memory.
constexpr double ball_radius_mm = 12.0;

Place place_of(const PersonHead& head, int side) {
    const double sign = side == 0 ? 1.0 : -1.0;
    const double out = sign * rad_from_deg(head.eye(side).left_deg);
    const double up = rad_from_deg(head.eye(side).up_deg);
    return {head, sign, dvec2{std::sin(out) * std::cos(up), std::sin(up)} * ball_radius_mm,
            dvec2{std::cos(out), std::cos(up)}};
}

std::uint32_t push(Mesh& mesh, const dvec3& at, const dvec3& normal, const dvec3& colour,
                   double openness) {
    mesh.vertices.push_back({.position_m = glm::vec3(at),
                             .normal = glm::vec3(glm::normalize(normal)),
                             .colour = glm::vec3(glm::clamp(colour, dvec3{0}, dvec3{1})),
                             .openness = static_cast<float>(openness)});
    return static_cast<std::uint32_t>(mesh.vertices.size() - 1);
}

/// A triangle that faces outwards on either side of the face: mirrored eyes turn the order round.
void triangle(Mesh& mesh, std::uint32_t a, std::uint32_t b, std::uint32_t c, double sign) {
    if (sign > 0)
        mesh.indices.insert(mesh.indices.end(), {a, b, c});
    else
        mesh.indices.insert(mesh.indices.end(), {a, c, b});
}

double wave(int i, int k) {
    return std::sin(i * 2.399963 * (k + 1) + k * 1.3);
}

dvec3 iris_colour(const dvec3& iris, double share, int spoke) {
    // A lighter collar round the pupil, spokes of fibres, a dark edge.
    const double fibre = 0.22 * wave(spoke, 1) + 0.12 * wave(spoke, 4);
    const double collar = hill((share - 0.48) / 0.2);
    const double edge = glm::smoothstep(0.80, 1.0, share);
    dvec3 c = iris * (1.15 + fibre + 0.55 * collar);
    c = glm::mix(c, iris * 0.22, 0.9 * edge);
    return c;
}

void add_ball(const Place& place, const Appearance& look, Detail detail, Mesh& mesh) {
    const HeadFrame& frame = place.head.frame();
    const int spokes = is_fine(detail) ? 24 : detail == Detail::middle ? 14 : 6;
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
    const dvec3 white{0.66, 0.63, 0.60};
    const auto vertex = [&](double dx, double y, const dvec3& colour) {
        const dvec3 at =
            place.plain(dx, y, eye_middle_z_mm + std::max(0.2, eye_shell_mm(dx, y, 0)));
        // The lids shade the ball beneath them.
        const double t = std::clamp(dx, inner_corner_x_mm, outer_corner_x_mm);
        const double from_upper = place.upper_edge(t) - y, from_lower = y - place.lower_edge(t);
        const double open = 1 - 0.52 * hill(std::max(0.0, from_upper) / 3.2) -
                            0.25 * hill(std::max(0.0, from_lower) / 1.8) -
                            0.25 * glm::smoothstep(8.0, 14.5, std::abs(dx));
        return push(mesh, at, at - middle, colour, std::clamp(open, 0.3, 1.0));
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
void add_glint(const Place& place, const EyeLight& light, Mesh& mesh) {
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
void add_lid_rim(const Place& place, const Appearance& look, const HeadTemplate& form, Mesh& mesh) {
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

void add_lashes(const Place& place, const Appearance& look, Detail detail, Mesh& mesh) {
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

void add_brow(const Place& place, const Appearance& look, Detail detail, Mesh& mesh) {
    // Hairs a tenth of a millimetre thick would vanish between the points of the picture.
    const bool close = detail == Detail::close;
    const int strands = close ? 190 : 36;
    const double half_width_m = close ? 0.00013 : 0.00026;
    const double thick = 1 + 0.28 * look.face.brow_thickness;
    const dvec3 forward = place.forward();
    for (int i = 0; i < strands; ++i) {
        const double t = (i + 0.5) / strands;
        const double x = glm::mix(brow_inner_x_mm, brow_outer_x_mm - 4, t);
        const double across = std::fmod(i * 0.618034 + 0.11, 1.0) * 2 - 1;
        const double half = brow_half_thickness_mm(x) * thick;
        const double y = brow_y_mm(x) + 0.95 * across * half - 0.3;
        // Upright at the nose, lying outwards along the arc, the upper ones combed down.
        const double angle =
            glm::mix(1.15, -0.16, std::pow(t, 0.5)) - 0.34 * across * (0.5 + t) + 0.16 * wave(i, 7);
        const double long_mm = (6.0 + 2.0 * wave(i, 1)) * glm::mix(0.70, 1.0, t);
        const dvec2 way{std::cos(angle), std::sin(angle)};
        const auto on_skin = [&](double u, double v, double lift) {
            const double z = face_z_mm(u, v, bare_front_z_mm(u, v));
            return place.varied(u - model::pupil_x, v, z + lift);
        };
        const dvec3 root = on_skin(x, y, 0.1);
        const dvec3 bend = on_skin(x + way.x * long_mm * 0.5, y + way.y * long_mm * 0.5, 0.7);
        const dvec3 tip = on_skin(x + way.x * long_mm, y + way.y * long_mm, 0.45);
        const dvec3 along = glm::normalize(tip - root);
        const dvec3 width = glm::normalize(glm::cross(forward, along)) * half_width_m;
        // Hairs lie on the skin and are lit like it.
        const dvec3 skin = glm::cross(on_skin(x + 3, y, 0.1) - root, on_skin(x, y + 3, 0.1) - root);
        add_strand(mesh, root, bend, tip, -width, glm::normalize(skin) * place.sign + 0.3 * forward,
                   glm::mix(look.hair * (0.70 + 0.25 * wave(i, 5)), look.skin, 0.12));
    }
}

}  // namespace

void add_eye(const PersonHead& head, const Appearance& look, const HeadTemplate& form,
             Detail detail, const EyeLight& light, int side, Mesh& onto) {
    const Place place = place_of(head, side);
    if (!head.motion().are_eyes_shut())
        add_ball(place, look, detail, onto);
    if (detail == Detail::far)
        return;
    add_lid_rim(place, look, form, onto);
    if (detail == Detail::middle)
        return;
    if (head.motion().upper_lid < 0.6)
        add_glint(place, light, onto);
    add_lashes(place, look, detail, onto);
    add_brow(place, look, detail, onto);
}

}  // namespace backrow::figures
