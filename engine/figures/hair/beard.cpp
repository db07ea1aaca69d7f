#include "figures/hair/beard.h"

#include "figures/body/loft.h"
#include "figures/body/smooth_curve.h"
#include "figures/head/head_form.h"

#include <glm/common.hpp>
#include <glm/geometric.hpp>

#include <array>
#include <cmath>
#include <numbers>

namespace backrow::figures {
namespace {

using glm::dvec2;
using glm::dvec3;

// Directions from the middle of the modelled head, in radians: round from straight ahead, and up.
constexpr double sideburn_rad = 1.42;

/// Where the beard begins: under the lip, past the corner of the mouth, up the cheek to the ear.
double upper_edge_rad(double around_rad) {
    static const SmoothCurve<8> edge{{0.0, 0.16, 0.29, 0.40, 0.62, 0.90, 1.15, sideburn_rad},
                                     {-0.672, -0.672, -0.645, -0.500, -0.425, -0.375, -0.22, 0.10}};
    return edge.held(around_rad);
}

/// Where it ends: on the throat, and along the jaw behind.
double lower_edge_rad(double around_rad) {
    static const SmoothCurve<5> edge{{0.0, 0.5, 0.9, 1.2, sideburn_rad},
                                     {-1.25, -1.22, -1.08, -0.86, -0.48}};
    return edge.held(around_rad);
}

dvec3 direction(const dvec2& around_up) {
    return {std::sin(around_up.x) * std::cos(around_up.y), std::sin(around_up.y),
            std::cos(around_up.x) * std::cos(around_up.y)};
}

double strand_of(int column, int row) {
    return 0.6 * std::sin(column * 2.1 + 0.7 * std::sin(row * 1.1)) +
           0.4 * std::sin(column * 3.7 + row * 0.9);
}

struct Tuft {
    const PersonHead& head;
    const Appearance& look;

    /// `share` across the beard from edge to edge, 0 … 1.
    [[nodiscard]] LoftPoint at(const dvec3& skin_mm, const dvec3& out, double thick_mm,
                               double share, int column, int row) const {
        const double body = std::pow(std::sin(std::numbers::pi * glm::clamp(share, 0.0, 1.0)), 0.6);
        const double strand = strand_of(column, row);
        // Towards its edges hair grows thin and skin shines through.
        const double lift = glm::mix(0.5, thick_mm * (1 + 0.14 * strand), body);
        const dvec3 colour = glm::mix(look.hair * (0.85 + 0.28 * strand), look.skin * 0.85,
                                      0.85 * std::pow(1 - body, 1.3)) +
                             dvec3{0.004};
        return {head.figure_from_model(skin_mm + out * lift), colour,
                0.72 + 0.16 * strand + 0.1 * body};
    }
};

}  // namespace

void add_beard(const PersonHead& head, const Appearance& look, Detail detail, shapes::Mesh& onto) {
    const Tuft tuft{head, look};
    const int columns = detail == Detail::close ? 61 : detail == Detail::near ? 25 : 9;
    const int rows = detail == Detail::close ? 12 : detail == Detail::near ? 6 : 5;
    Loft jaw{columns, false, {}};
    for (int row = 0; row < rows; ++row)
        for (int column = 0; column < columns; ++column) {
            const double around = sideburn_rad * (2.0 * column / (columns - 1) - 1);
            const double side = std::abs(around);
            const double share = row / (rows - 1.0);
            const double jag = 0.016 * strand_of(column, 0) * (1 - share);
            const double up = glm::mix(upper_edge_rad(side) + jag, lower_edge_rad(side), share);
            const dvec3 out = direction({around, up});
            // Wide triangles cut corners: the skin must stay below them.
            const double thick =
                glm::mix(7.5, 4.0, glm::smoothstep(0.2, 1.1, side)) + (is_fine(detail) ? 0.0 : 4.0);
            jaw.points.push_back(
                tuft.at(with_features(bare_form_mm(out)), out, thick, share, column, row));
        }
    append(jaw, onto, Cover::hair);

    // The moustache: from under the nose to outside the corners of the mouth, where it meets the
    // beard.
    const int across = detail == Detail::close ? 33 : detail == Detail::near ? 17 : 7;
    const int down = detail == Detail::close ? 6 : detail == Detail::near ? 4 : 3;
    const double end_mm = mouth_half_width_mm + 8.0;
    Loft lip{across, false, {}};
    for (int row = 0; row < down; ++row)
        for (int column = 0; column < across; ++column) {
            const double x = end_mm * (2.0 * column / (across - 1) - 1);
            const double t = std::abs(x) / end_mm;
            const double share = row / (down - 1.0);
            const double droop = glm::smoothstep(0.76, 1.0, t);
            const double top = glm::mix(-50.5, -60.0, t * t) - 7.0 * droop;
            const double at_x = std::min(std::abs(x), mouth_half_width_mm);
            const double bottom = upper_lip_y_mm(at_x) - 0.4 - 10.5 * droop;
            const double y = glm::mix(top, bottom, share);
            const dvec3 skin{x, y, face_z_mm(x, y, bare_front_z_mm(x, y))};
            const dvec3 out = glm::normalize(dvec3{x * 0.012, 0, 1});
            lip.points.push_back(tuft.at(skin, out, 4.2, share, column, row));
        }
    append(lip, onto, Cover::hair);
}

}  // namespace backrow::figures
