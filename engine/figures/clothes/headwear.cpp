#include "figures/clothes/headwear.h"

#include "figures/body/flesh.h"
#include "figures/body/loft.h"
#include "figures/head/head_form.h"

#include <glm/common.hpp>
#include <glm/geometric.hpp>
#include <glm/vec2.hpp>

#include <array>
#include <cmath>
#include <numbers>
#include <vector>

namespace backrow::figures {
namespace {

using glm::dvec2;
using glm::dvec3;

constexpr double pi = std::numbers::pi;

/// Under a hat or a scarf lie flattened hair and the cloth itself, millimetres.
constexpr double over_skull_mm = 6.5;

/// The skull's outline at a hat's line, seen from the head's middle; around_rad from straight
/// ahead.
dvec3 at_hat_line(double around_rad) {
    dvec3 dir{std::sin(around_rad), 0.5, std::cos(around_rad)};
    dvec3 p = bare_form_mm(dir);
    for (int i = 0; i < 12; ++i) {
        dir.y += (hat_line_mm(p.z) - p.y) / 95.0;
        p = bare_form_mm(dir);
    }
    return p + glm::normalize(dvec3{p.x, 0, p.z}) * over_skull_mm;
}

void add_hat(const PersonHead& head, const Appearance& look, Detail detail, shapes::Mesh& onto) {
    const int columns = detail == Detail::close    ? 40
                        : detail == Detail::near   ? 22
                        : detail == Detail::middle ? 10
                                                   : 6;
    const dvec3 felt = look.headwear_colour;
    const dvec3 band = felt * 0.42;
    constexpr double top_mm = model::crown_y + 21;
    struct Row {
        double in;    ///< Size against the line round the head …
        double up;    ///< … height from there, 0, to the top, 1 …
        double brim;  ///< … and share of the brim.
        double drop_mm;
        dvec3 colour;
        double ambient_visibility;
    };
    const std::array<Row, 13> rows{{{0.0, 0.93, 0, 0, felt, 0.9},
                                    {0.38, 0.94, 0, 0, felt, 0.9},
                                    {0.66, 1.0, 0, 0, felt * 1.05, 1},
                                    {0.80, 0.965, 0, 0, felt * 1.05, 1},
                                    {0.885, 0.84, 0, 0, felt, 1},
                                    {0.965, 0.36, 0, 0, felt, 0.95},
                                    {0.985, 0.345, 0, 0, band, 0.9},
                                    {1.005, 0.03, 0, 0, band, 0.7},
                                    {1.0, 0.0, 0.03, 0, felt, 0.75},
                                    {1.0, 0.0, 0.5, 0, felt, 0.95},
                                    {1.0, 0.0, 1.0, 0, felt * 1.08, 1},
                                    {1.0, 0.0, 1.0, 2.4, felt * 0.9, 0.8},
                                    {0.93, 0.0, 0.0, 2.4, felt * 0.6, 0.4}}};
    Loft loft{columns, true, {}};
    const dvec3 middle{0, 0, -4};
    // Small pictures need its outline and the band only.
    static const std::vector<std::size_t> few{0, 2, 4, 7, 8, 10, 12};
    const std::size_t count = is_fine(detail) ? rows.size() : few.size();
    for (std::size_t r = 0; r < count; ++r)
        for (int i = 0; i < columns; ++i) {
            const Row& row = rows[is_fine(detail) ? r : few[r]];
            const double around = 2 * pi * i / columns - pi;
            const dvec3 line = at_hat_line(around);
            const dvec3 out = glm::normalize(dvec3{line.x, 0, line.z});
            dvec3 p = middle + (line - middle) * dvec3{row.in, 0, row.in};
            // The crown is pinched in front and creased along its top.
            const double pinch = row.up > 0.3 ? 5.0 * row.up * hill((around) / 0.7) : 0.0;
            p -= out * (pinch * row.in);
            p.y = glm::mix(line.y, top_mm + 4 * std::cos(around) * row.in, row.up) - row.drop_mm;
            // A brim rises at the sides and dips before and behind.
            p += out * (46.0 * row.brim);
            p.y += row.brim * (4.0 * (1 - std::cos(2 * around)) - 5.0);
            loft.points.push_back(
                {head.figure_from_plain_model(p), row.colour, row.ambient_visibility});
        }
    append(loft, onto);
}

int scarf_columns(Detail detail) {
    switch (detail) {
    case Detail::close:
        return 40;
    case Detail::near:
        return 28;
    case Detail::middle:
        return 16;
    case Detail::far:
        break;
    }
    return 8;
}

/// The cloth over the skull, open at the face.
void add_hood(const PersonHead& head, const Appearance& look, Detail detail, shapes::Mesh& onto) {
    const int columns = scarf_columns(detail);
    const int rows = detail == Detail::close    ? 12
                     : detail == Detail::near   ? 9
                     : detail == Detail::middle ? 7
                                                : 6;
    // Few wide triangles must stay clear of the skull between their corners.
    const double room_mm = is_fine(detail) ? 0.0 : detail == Detail::middle ? 6.5 : 13.0;
    Loft loft{columns, true, {}};
    for (int row = 0; row < rows; ++row)
        for (int i = 0; i < columns; ++i) {
            // From the crown round the face's edge, towards the person's right, then back over
            // the head.
            const double a = -2 * pi * i / columns;
            const double up = std::cos(a);
            const double share = row / (rows - 1.0);
            // How far from straight ahead the edge lies: brow, temples, under the chin.
            const double edge = glm::mix(glm::mix(1.22, 0.68, glm::smoothstep(0.0, 1.0, up)), 1.12,
                                         glm::smoothstep(0.0, -1.0, up));
            const double last = glm::mix(pi, 2.35, glm::smoothstep(0.2, -0.8, up));
            const double off = glm::mix(edge, last, std::max(0.0, (row - 1) / (rows - 2.0)));
            const dvec3 dir{std::sin(off) * std::sin(a), std::sin(off) * up, std::cos(off)};
            const double fold = std::sin(a * 7 + 2.0 * std::sin(share * 4) + share * 5) *
                                glm::smoothstep(0.05, 0.3, share);
            const double thick = row == 0 ? -0.5 : over_skull_mm + room_mm + 1.1 * fold;
            const dvec3 p = bare_form_mm(dir) + dir * thick;
            loft.points.push_back({head.figure_from_model(p),
                                   look.headwear_colour * (1 + 0.05 * fold - (row == 0 ? 0.3 : 0)),
                                   (row == 0 ? 0.6 : 0.95) + 0.05 * fold});
        }
    append(loft, onto);
}

/// The ends of the scarf, wound round the neck and lying on the shoulders.
void add_wrap(const PersonHead& head, const Appearance& look, const Skeleton& s,
              const BodyMeasures& m, const shapes::Field& top, const shapes::Field& neck,
              Detail detail, shapes::Mesh& onto) {
    const double u = m.stature_m;
    const int columns = scarf_columns(detail);
    const int rows = detail == Detail::close    ? 12
                     : detail == Detail::near   ? 8
                     : detail == Detail::middle ? 5
                                                : 3;
    const shapes::Field body = [&](const dvec3& p) { return std::min(top(p), neck(p)); };
    const dvec3 collar = s.on_trunk({0, s.build.shoulder_up_m - 0.010 * u, -0.004 * u});
    Loft loft{columns, true, {}};
    for (int row = 0; row < rows; ++row)
        for (int i = 0; i < columns; ++i) {
            const double a = 2 * pi * i / columns - pi;
            const double share = row / (rows - 1.0);
            // Columns run towards the person's left, the axes turning from the head's to the
            // trunk's.
            const dvec3 side = glm::normalize(glm::mix(s.head[0], s.trunk[0], share));
            const dvec3 front = glm::normalize(glm::mix(s.head[2], s.trunk[2], share));
            const dvec3 out = side * std::sin(a) + front * std::cos(a);
            const double before = 0.5 + 0.5 * std::cos(a);
            // It begins out of sight under the chin and, behind, under the hood.
            const dvec3 jaw = head.figure_from_plain_model({0, -72 - 44 * before, 14});
            dvec3 axis = glm::mix(jaw, collar, share);
            // In front the cloth hangs lower than behind.
            axis -= s.trunk[1] * (share * share * u * (0.046 * before * before - 0.006));
            const double under = leaves_at(body, axis, out, 0.060 * u);
            const double jaw_wide = glm::length(dvec2{0.315 * m.head_breadth_m * std::sin(a),
                                                      0.26 * m.head_length_m * std::cos(a)});
            const double wound = std::sin(share * 15.0 + 1.3 * std::sin(a) + 0.5 * std::sin(3 * a));
            const double inside = glm::smoothstep(0.0, 0.25, share);
            const double loose = 0.009 * u * std::sin(pi * share) * inside + 0.003 * u * share;
            const double radius = std::max(under * inside, jaw_wide * (1 - 0.35 * share)) + loose +
                                  0.0022 * u * wound * (1 - glm::smoothstep(0.85, 1.0, share));
            dvec3 p = axis + out * radius;
            // What would sink into a shoulder lies on it; the hem alone touches the cloth below.
            const double off = u * glm::mix(0.006, 0.001, glm::smoothstep(0.85, 1.0, share));
            for (int k = 0; k < 8; ++k)
                p += s.trunk[1] * std::max(0.0, off - body(p));
            // Shoulders slope down: no row lies over the one before it.
            if (row > 0) {
                const dvec3& last =
                    loft.points[loft.points.size() - static_cast<std::size_t>(columns)].at_m;
                if (const double over = glm::dot(p - last, s.trunk[1]); over > 0)
                    p = last + out * (0.001 * u);
            }
            loft.points.push_back(
                {p, look.headwear_colour * (1 + 0.09 * wound),
                 0.85 + 0.12 * wound - 0.25 * (1 - glm::smoothstep(0.0, 0.2, share))});
        }
    append(loft, onto);
}

}  // namespace

double hat_line_mm(double z_mm) noexcept {
    return 34 + 0.20 * z_mm;
}

void add_headwear(const PersonHead& head, const Appearance& look, const Skeleton& skeleton,
                  const BodyMeasures& measures, const shapes::Field& top, const shapes::Field& neck,
                  Detail detail, shapes::Mesh& onto) {
    if (look.headwear == Headwear::hat)
        add_hat(head, look, detail, onto);
    if (look.headwear == Headwear::headscarf) {
        add_hood(head, look, detail, onto);
        add_wrap(head, look, skeleton, measures, top, neck, detail, onto);
    }
}

}  // namespace backrow::figures
