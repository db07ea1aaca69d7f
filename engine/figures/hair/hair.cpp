#include "figures/hair/hair.h"

#include "figures/body/loft.h"
#include "figures/clothes/headwear.h"
#include "figures/hair/hair_cut.h"
#include "figures/head/head_form.h"

#include "base/units.h"

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

/// How many rows and columns the locks are laid in.
struct Locks {
    int columns, skull_rows, fall_rows;
};

Locks locks_for(Detail detail, bool hangs, bool hatted, bool curled) {
    // Most of the skull is out of sight under a hat.
    switch (detail) {
    case Detail::close:
        return {112, hatted ? 10 : curled ? 26 : 20, hangs ? 8 : 0};
    case Detail::near:
        return {54, hatted ? 6 : 11, hangs ? 4 : 0};
    case Detail::middle:
        return {hatted ? 18 : 30, hatted ? 4 : 6, hangs ? 2 : 0};
    case Detail::far:
        break;
    }
    return {hatted ? 8 : 12, hatted ? 3 : 4, hangs ? 2 : 0};
}

/// Locks over the skull and, where the cut is long, hanging from it.
Loft locks(const PersonHead& head, const Appearance& look, Detail detail) {
    const HairCut cut = cut_of(look.hair_style);
    const bool hangs = cut.fall_to_mm < 0;
    const bool hatted = look.headwear == Headwear::hat;
    const bool curled = cut.lump_mm > 0;
    const auto [columns, skull_rows, fall_rows] = locks_for(detail, hangs, hatted, curled);
    Loft sheet{columns, true, {}};

    for (int row = 0; row < skull_rows + fall_rows; ++row)
        for (int column = 0; column < columns; ++column) {
            const double u = 2.0 * column / columns - 1;
            // Closer together in front, where they are seen.
            const double around = std::numbers::pi * std::copysign(std::pow(std::abs(u), 1.3), u);
            const double side = std::copysign(1.0, around);
            const double frontness = 1 - glm::smoothstep(0.85, 1.25, std::abs(around));
            const double sideness = 1 - std::abs(std::cos(around));
            const double hair =
                is_fine(detail) ? hair_value(curled ? column + 131 * row : column, 1) : 0.0;
            const double jag =
                0.5 + 0.3 * std::sin(around * 9.0 + 1.0) + 0.2 * lock_value(around, 3);
            const double low = cut.fringe_mm / 95.0 * frontness * (0.75 + 0.25 * jag);
            double line =
                hair_line_rad(around) - low - (0.02 + 0.25 * low) * (jag - 0.3) + 0.022 * hair;
            // Hanging hair leaves the head where that is widest.
            if (hangs)
                line = std::max(
                    line, glm::mix(line, -0.03, glm::smoothstep(1.45, 2.0, std::abs(around))));
            const double v = std::min(1.0, row / (skull_rows - 1.0));
            // Rows crowd at the hair line, where the hair turns into the skin.
            const double t = 1 - std::pow(1 - v, 1.25);
            const dvec3 dir = glm::normalize(
                between_directions(root_of(cut, around), head_direction(around, line), t));

            const double lying = glm::smoothstep(-0.1, 0.85, dir.y);
            double thick = glm::mix(cut.side_mm, cut.top_mm, lying);
            const double at_edge = glm::smoothstep(0.72, 1.0, v);
            const double edge_mm =
                hangs ? glm::mix(cut.side_mm, cut.front_mm * 0.20, frontness)
                      : glm::mix(0.5, cut.front_mm * (0.22 + 0.16 * jag), frontness);
            thick = glm::mix(thick, glm::mix(thick, cut.front_mm, 0.8 * frontness),
                             glm::smoothstep(0.4, 0.85, v));
            thick = glm::mix(thick, edge_mm, at_edge * at_edge);
            const double strand = lock_value(around, 1);
            const double curl = curled ? curl_value(dir) : 0.0;
            if (!curled)
                thick *= 1 + (0.13 * strand + 0.05 * hair) * glm::smoothstep(0.05, 0.4, v);
            thick += cut.lump_mm * (curl + 0.08 * hair) * (1 - 0.55 * at_edge) *
                     glm::smoothstep(0.02, 0.2, v);
            // Along the parting, and round the whorl, the scalp shows.
            const double at_root = 1 - glm::smoothstep(0.0, cut.parted ? 0.11 : 0.14, v);
            thick *= 1 - (cut.parted ? 0.60 : 0.12) * at_root * at_root;
            if (hatted) {  // A hat presses it flat.
                const dvec3 skin = head_middle_mm + dir * skull_radius_mm(dir);
                const double above = skin.y - hat_line_mm(skin.z);
                thick = glm::mix(thick, std::min(thick, 3.0), glm::smoothstep(-14.0, 2.0, above));
            }

            dvec3 p = head_middle_mm + dir * (skull_radius_mm(dir) + thick);
            double fall = 0;
            if (row >= skull_rows && frontness < 1) {
                fall = (row - skull_rows + 1.0) / fall_rows;
                const double loose = 1 - frontness;
                const double bottom =
                    cut.fall_to_mm + 8 * lock_value(around, 4) + 5 * hair_value(column, 2);
                p.y -= (p.y - bottom) * loose * fall;
                const double swing = std::sin(fall * 5.2 + 0.5 * std::abs(around)) * cut.wave_mm +
                                     0.3 * cut.wave_mm * strand * fall;
                const double in = glm::smoothstep(0.3, 1.0, fall) * 7.0;
                p.x += side * sideness * (swing - in + 5.0 * std::sin(fall * 3.1));
                // Behind, it lies on the collar and the shoulders.
                const double behind = std::max(0.0, -std::cos(around));
                p.z -= behind * (17.0 * std::sin(fall * 1.75) + 0.6 * swing);
                p += dvec3{side * sideness, 0, std::cos(around)} * (2.5 * strand * fall);
            }
            const double fibre =
                curled ? 0.35 * curl + 0.15 * hair
                       : 0.26 * strand + 0.20 * hair + 0.12 * hair_value(column + 7 * (row / 3), 5);
            const double ring = (curled ? 0.3 : 0.8) * hill((v - 0.42) / 0.17) *
                                (0.35 + 0.25 * lock_value(around, 2) + 0.25 * hair);
            dvec3 colour = look.hair * (1 + fibre + ring) + dvec3{0.010} * (1 + ring);
            colour = glm::mix(colour * (1 + 0.20 * fall), look.skin * 0.75,
                              cut.parted ? 0.30 * at_root * at_root : 0.10 * at_root);
            // At the hair line skin shines through.
            const double through = is_fine(detail) && !hangs ? 0.30
                                   : is_fine(detail)         ? 0.30 * frontness
                                                             : 0.0;
            colour = glm::mix(colour, look.skin * 0.8,
                              through * glm::smoothstep(0.86, 1.0, v) * (0.75 + 0.25 * hair));
            const double groove = 0.5 - 0.5 * glm::clamp(curled ? curl : strand, -1.0, 1.0);
            sheet.points.push_back(
                {head.figure_from_model(p), colour,
                 1 - 0.38 * groove - 0.15 * at_edge * (1 - frontness) - 0.15 * fall});
        }
    return sheet;
}

/// Single hairs, a few together, past the hair line: they soften its edge.
void add_wisps(const PersonHead& head, const Appearance& look, shapes::Mesh& onto) {
    const HairCut cut = cut_of(look.hair_style);
    const int count = 300;
    for (int i = 0; i < count; ++i) {
        // Forehead and temples, and of short hair the nape.
        const double share = (i + 0.5 + 0.45 * hair_value(i, 11)) / count;
        double around = (2 * share - 1) * 1.35;
        if (cut.fall_to_mm > 0 && i % 3 == 0)
            around = std::copysign(2.1 + 1.0 * std::abs(2 * share - 1), around);
        const bool before = std::abs(around) < 1.4;
        const double low = before ? cut.fringe_mm / 95.0 : 0.0;
        const dvec3 root = root_of(cut, around);
        const dvec3 end = head_direction(around, hair_line_rad(around) - 0.8 * low);
        const double begin_t = 0.84, end_t = 1.015 + 0.025 * std::abs(hair_value(i, 12));
        const double lean = 0.03 * hair_value(i, 13);
        const double thick_mm = before ? 0.30 * cut.front_mm + 1.0 : 1.8;
        Loft wisp{2, false, {}};
        for (int r = 0; r < 4; ++r) {
            const double s = r / 3.0;
            const dvec3 along =
                glm::normalize(between_directions(root, end, glm::mix(begin_t, end_t, s)));
            const dvec3 aside = glm::normalize(glm::cross(along, end - root));
            const double off_mm = glm::mix(thick_mm, 0.5, s * s);
            const double half_mm = 0.8 * (1 - s * s);
            for (const double side : {-1.0, 1.0}) {
                const dvec3 dir = glm::normalize(along + aside * (lean * s));
                const dvec3 p = head_middle_mm + dir * (skull_radius_mm(dir) + off_mm) +
                                aside * (side * half_mm);
                wisp.points.push_back({head.figure_from_model(p),
                                       look.hair * (0.85 + 0.3 * hair_value(i, 14)) + dvec3{0.006},
                                       0.85});
            }
        }
        append(wisp, onto);
    }
}

/// Hairs that lie a little off the others: what breaks a head's outline against the light.
void add_stray_hairs(const Loft& locks, const PersonHead& head, const Appearance& look,
                     shapes::Mesh& onto) {
    const int rows = static_cast<int>(locks.points.size()) / locks.columns;
    const dvec3 middle_m = head.figure_from_plain_model(head_middle_mm);
    const bool curled = look.hair_style == HairStyle::curls;
    const int count = curled ? 260 : 200;
    constexpr int steps = 5;
    for (int i = 0; i < count; ++i) {
        const auto chance = [&](int k) { return 0.5 + 0.5 * hair_value(i, k); };
        const int column = static_cast<int>(chance(21) * locks.columns) % locks.columns;
        const int last = rows - steps - 1;
        const int row = static_cast<int>((0.15 + 0.85 * chance(22)) * last);
        const double rise_m = m_from_mm((curled ? 5.0 : 2.2) * (0.3 + chance(23)));
        const double half_m = m_from_mm(0.09);
        const double drift = 0.5 * hair_value(i, 24);
        Loft strand{2, false, {}};
        for (int k = 0; k < steps; ++k) {
            const double t = k / (steps - 1.0);
            const auto at = [&](int r, int c) -> const LoftPoint& {
                return locks.points[static_cast<std::size_t>(r * locks.columns +
                                                             (c + locks.columns) % locks.columns)];
            };
            const LoftPoint& here = at(row + k, column);
            const dvec3 out = glm::normalize(here.at_m - middle_m);
            const dvec3 aside = at(row + k, column + 1).at_m - here.at_m;
            const double off = std::sin(2.6 * t) + (curled ? 0.25 * std::sin(9.0 * t + i) : 0.0);
            const dvec3 p = here.at_m + out * (rise_m * off + 0.0002) + aside * (drift * t * 2);
            const dvec3 half = glm::length(aside) > 0
                                   ? glm::normalize(aside) * (half_m * (1 - 0.8 * t))
                                   : dvec3{0};
            const dvec3 colour = look.hair * 1.15 + dvec3{0.008};
            strand.points.push_back({p - half, colour, 0.9});
            strand.points.push_back({p + half, colour, 0.9});
        }
        append(strand, onto);
    }
}

/// The knot of tied hair at the back of the head.
Loft knot(const PersonHead& head, const Appearance& look, Detail detail) {
    const int columns = detail == Detail::close    ? 36
                        : is_fine(detail)          ? 13
                        : detail == Detail::middle ? 10
                                                   : 6;
    const int rows = detail == Detail::close ? 9 : is_fine(detail) ? 6 : 4;
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
            const double strand =
                0.7 * lock_value(around, 1) + (is_fine(detail) ? 0.4 * hair_value(column, 3) : 0.0);
            const double radius = 32 * (1 + 0.07 * strand);
            const dvec3 p =
                middle +
                (side * std::cos(around) + over * std::sin(around)) * (radius * std::cos(up)) +
                out * (0.85 * radius * std::sin(up));
            sheet.points.push_back(
                {head.figure_from_model(p),
                 look.hair * (1 + 0.35 * strand + 0.3 * hill(up - 0.5)) + dvec3{0.010},
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
    const Loft sheet = locks(head, look, detail);
    append(sheet, onto, Cover::hair);
    if (detail == Detail::close && look.headwear == Headwear::none) {
        add_wisps(head, look, onto);
        add_stray_hairs(sheet, head, look, onto);
    }
    if (look.hair_style == HairStyle::tied)
        append(knot(head, look, detail), onto, Cover::hair);
}

}  // namespace backrow::figures
