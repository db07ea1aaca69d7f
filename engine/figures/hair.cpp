#include "figures/hair.h"

#include "figures/head_form.h"
#include "figures/headwear.h"
#include "figures/loft.h"

#include <glm/common.hpp>
#include <glm/geometric.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <vector>

namespace backrow::figures {
namespace {

using glm::dvec3;

/// Millimetres of the modelled head.
struct Cut {
    dvec3 whorl;             ///< Direction from which the locks spread.
    double top_mm, side_mm;  ///< Thickness over the skull.
    double front_mm;         ///< Thickness at the front hair line.
    double fall_to_mm;       ///< Height where hanging hair ends; no hanging hair if above the ears.
    double lump_mm;          ///< Curls.
    double wave_mm;          ///< Waves of hanging hair.
    double fringe_mm;        ///< How far the front comes down over the forehead.
};

Cut cut_of(HairStyle style) {
    switch (style) {
    case HairStyle::cropped:
        return {{0.02, 1, -0.42}, 8, 3.5, 4, 100, 0, 0, 1};
    case HairStyle::parted:
        return {{0.42, 1, 0.02}, 17, 5, 9, 100, 0, 0, 3};
    case HairStyle::waves:
        return {{0.20, 1, 0.18}, 15, 13, 6, -168, 0, 5, 0};
    case HairStyle::bob:
        return {{-0.22, 1, 0.10}, 15, 13, 8, -92, 0, 1.5, 14};
    case HairStyle::tied:
        return {{0.0, 0.86, -0.95}, 6, 4.5, 3, 100, 0, 0, 0};
    case HairStyle::curls:
        return {{0.05, 1, -0.25}, 22, 15, 10, 100, 5.0, 0, 5};
    case HairStyle::none:
        break;
    }
    return {{0, 1, 0}, 0, 0, 0, 100, 0, 0, 0};
}

/// Elevation of the hair line seen from the middle of the head, by the angle from straight ahead.
double hair_line_rad(double around_rad) {
    static const SmoothCurve<9> line{{0.0, 0.42, 0.78, 1.04, 1.22, 1.42, 1.85, 2.35, 3.1416},
                                     {0.84, 0.87, 0.80, 0.52, 0.20, -0.02, -0.20, -0.52, -0.62}};
    return line.held(std::abs(around_rad));
}

dvec3 direction(double around_rad, double up_rad) {
    return {std::sin(around_rad) * std::cos(up_rad), std::sin(up_rad),
            std::cos(around_rad) * std::cos(up_rad)};
}

/// The skull's radius from a table: hair needs thousands of points, but no features.
double skull_radius_mm(const dvec3& dir) {
    constexpr int across = 48, up = 25;
    static const std::vector<double> table = [] {
        std::vector<double> radii;
        for (int j = 0; j < up; ++j)
            for (int i = 0; i <= across; ++i) {
                const double e = std::numbers::pi * (j / (up - 1.0) - 0.5);
                const double a = 2 * std::numbers::pi * (i / static_cast<double>(across) - 0.5);
                radii.push_back(glm::distance(bare_form_mm(direction(a, e)), head_middle_mm));
            }
        return radii;
    }();
    const double x = (std::atan2(dir.x, dir.z) / (2 * std::numbers::pi) + 0.5) * across;
    const double y = (std::asin(std::clamp(dir.y, -1.0, 1.0)) / std::numbers::pi + 0.5) * (up - 1);
    const int i = std::clamp(static_cast<int>(x), 0, across - 1);
    const int j = std::clamp(static_cast<int>(y), 0, up - 2);
    const auto at = [&](int u, int v) {
        return table[static_cast<std::size_t>(v * (across + 1) + u)];
    };
    return glm::mix(glm::mix(at(i, j), at(i + 1, j), x - i),
                    glm::mix(at(i, j + 1), at(i + 1, j + 1), x - i), y - j);
}

dvec3 between(const dvec3& a, const dvec3& b, double t) {
    const double angle = std::acos(std::clamp(glm::dot(a, b), -0.9999, 0.9999));
    return (a * std::sin((1 - t) * angle) + b * std::sin(t * angle)) / std::sin(angle);
}

double lock_value(int column, int k) {
    return std::sin(column * (1.618034 + 0.37 * k) + 2.1 * k) * 0.6 +
           std::sin(column * (2.91 + k) + k) * 0.4;
}

/// Locks over the skull and, where the cut is long, hanging from it.
Loft locks(const PersonHead& head, const Appearance& look, Detail detail) {
    const Cut cut = cut_of(look.hair_style);
    const bool hangs = cut.fall_to_mm < 0;
    // Most of the skull is out of sight under a hat.
    const bool hatted = look.headwear == Headwear::hat;
    const int columns = is_fine(detail)            ? 54
                        : detail == Detail::middle ? (hatted ? 18 : 30)
                                                   : (hatted ? 8 : 12);
    const int skull_rows = is_fine(detail)            ? (hatted ? 6 : 11)
                           : detail == Detail::middle ? (hatted ? 4 : 6)
                                                      : (hatted ? 3 : 4);
    const int fall_rows = !hangs ? 0 : is_fine(detail) ? 4 : 2;
    const dvec3 whorl = glm::normalize(cut.whorl);
    const int rows = skull_rows + fall_rows;
    Loft sheet{columns, true, {}};

    for (int row = 0; row < rows; ++row)
        for (int column = 0; column < columns; ++column) {
            const double u = 2.0 * column / columns - 1;
            // Closer together in front, where they are seen.
            const double around = std::numbers::pi * std::copysign(std::pow(std::abs(u), 1.3), u);
            const double frontness = 1 - glm::smoothstep(0.85, 1.25, std::abs(around));
            const double sideness = 1 - std::abs(std::cos(around));
            const double jag =
                0.5 + 0.3 * std::sin(around * 9.0 + 1.0) + 0.2 * lock_value(column, 3);
            const double low = cut.fringe_mm / 95.0 * frontness * (0.75 + 0.25 * jag);
            const dvec3 end =
                direction(around, hair_line_rad(around) - low - (0.02 + 0.25 * low) * (jag - 0.3));
            const double v = std::min(1.0, row / (skull_rows - 1.0));
            // Rows crowd at the hair line, where the hair turns into the skin.
            const double t = 1 - std::pow(1 - v, 1.25);
            const dvec3 dir = glm::normalize(between(whorl, end, t));

            const double lying = glm::smoothstep(-0.1, 0.85, dir.y);
            double thick = glm::mix(cut.side_mm, cut.top_mm, lying);
            const double at_edge = glm::smoothstep(0.72, 1.0, v);
            const double edge_mm = hangs ? glm::mix(cut.side_mm, cut.front_mm * 0.25, frontness)
                                         : glm::mix(0.6, cut.front_mm * 0.30, frontness);
            thick = glm::mix(thick, glm::mix(thick, cut.front_mm, 0.8 * frontness),
                             glm::smoothstep(0.4, 0.85, v));
            thick = glm::mix(thick, edge_mm, at_edge * at_edge);
            // Locks: ridges between shallow grooves.
            const double strand = lock_value(column, 1);
            const bool curled = cut.lump_mm > 0;
            thick *= 1 + (curled ? 0.04 : 0.15) * strand * glm::smoothstep(0.05, 0.4, v);
            // Curls stand in staggered rows.
            const double curl = curled ? std::sin(column * 1.35 + 3.1 * row) *
                                             (0.75 + 0.25 * std::sin(row * 1.9 + column * 0.23))
                                       : 0.0;
            thick += cut.lump_mm * curl * (1 - 0.6 * at_edge) * glm::smoothstep(0.05, 0.3, v);
            // A hat presses it flat.
            if (hatted) {
                const dvec3 skin = head_middle_mm + dir * skull_radius_mm(dir);
                const double above = skin.y - hat_line_mm(skin.z);
                thick = glm::mix(thick, std::min(thick, 3.0), glm::smoothstep(-14.0, 2.0, above));
            }
            const double whorl_dip = 0.12 * (1 - glm::smoothstep(0.0, 0.14, v));
            thick *= 1 - whorl_dip;

            dvec3 p = head_middle_mm + dir * (skull_radius_mm(dir) + thick);
            double fall = 0;
            if (row >= skull_rows && frontness < 1) {
                fall = (row - skull_rows + 1.0) / fall_rows;
                const double side = std::copysign(1.0, around);
                const double bottom = cut.fall_to_mm + 9 * lock_value(column, 4);
                const double drop = (p.y - bottom) * (1 - frontness);
                p.y -= drop * fall;
                const double swing = std::sin(fall * 5.2 + 0.5 * std::abs(around)) * cut.wave_mm;
                const double in = glm::smoothstep(0.3, 1.0, fall) * 7.0;
                p.x += side * sideness * (swing - in + 5.0 * std::sin(fall * 3.1));
                // Behind, it keeps clear of the neck and the shoulders.
                p.z += (1 - sideness) * (std::cos(around) < 0 ? -1.0 : 1.0) *
                       (12.0 * std::sin(fall * 2.2) - in);
            }
            const double fibre =
                curled ? 0.45 * curl : 0.40 * strand + 0.20 * lock_value(column, 6);
            const double ring = (curled ? 0.4 : 1.0) * hill((v - 0.42) / 0.16) *
                                (0.35 + 0.35 * lock_value(column, 2));
            const double root = 1 - 0.25 * (1 - glm::smoothstep(0.0, 0.2, v));
            dvec3 colour = look.hair * (1 + fibre + ring) * root + dvec3{0.010} * (1 + ring);
            colour *= 1 + 0.20 * fall;
            const double groove = 0.5 - 0.5 * (curled ? curl : strand);
            sheet.points.push_back(
                {head.figure_from_model(p), colour,
                 1 - 0.38 * groove - 0.15 * at_edge * (1 - frontness) - 0.15 * fall});
        }
    return sheet;
}

/// The knot of tied hair at the back of the head.
Loft knot(const PersonHead& head, const Appearance& look, Detail detail) {
    const int columns = is_fine(detail) ? 17 : detail == Detail::middle ? 10 : 6;
    const int rows = is_fine(detail) ? 7 : 4;
    Loft sheet{columns, true, {}};
    // A hat leaves room for it at the nape only.
    const bool low = look.headwear == Headwear::hat;
    const dvec3 out = glm::normalize(low ? dvec3{0, -0.30, -0.95} : dvec3{0, 0.78, -0.72});
    const dvec3 side{1, 0, 0};
    const dvec3 over = glm::cross(out, side);
    const dvec3 middle = head_middle_mm + out * (low ? 126.0 : 138.0);
    for (int row = 0; row < rows; ++row)
        for (int column = 0; column < columns; ++column) {
            const double up = std::numbers::pi * (0.5 - row / (rows - 1.0));
            const double around = -2 * std::numbers::pi * column / columns + 1.4 * up;
            const double strand = lock_value(column, 1);
            const double radius = 32 * (1 + 0.07 * strand);
            const dvec3 p =
                middle +
                (side * std::cos(around) + over * std::sin(around)) * (radius * std::cos(up)) +
                out * (0.85 * radius * std::sin(up));
            sheet.points.push_back({head.figure_from_model(p),
                                    look.hair * (1 + 0.35 * strand + 0.3 * hill(up - 0.5)),
                                    0.72 + 0.2 * strand});
        }
    return sheet;
}

}  // namespace

bool covers_ears(HairStyle style) noexcept {
    return style == HairStyle::waves || style == HairStyle::bob;
}

void add_hair(const PersonHead& head, const Appearance& look, Detail detail, shapes::Mesh& onto) {
    if (look.hair_style == HairStyle::none)
        return;
    append(locks(head, look, detail), onto);
    if (look.hair_style == HairStyle::tied)
        append(knot(head, look, detail), onto);
}

}  // namespace backrow::figures
