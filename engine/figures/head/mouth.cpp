#include "figures/head/mouth.h"

#include "figures/body/loft.h"
#include "figures/head/head_form.h"

#include <glm/common.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <vector>

namespace backrow::figures {
namespace {

using glm::dvec3;

/// Breadths of the crowns along the arch from the middle outwards, and their heights; millimetres,
/// by eye.
struct Crown {
    double breadth, height;
};
constexpr std::array<Crown, 6> upper_crowns{
    {{8.6, 10.4}, {6.7, 9.2}, {7.6, 10.0}, {6.9, 8.6}, {6.7, 8.0}, {9.8, 7.4}}};
constexpr std::array<Crown, 6> lower_crowns{
    {{5.4, 8.8}, {5.9, 8.8}, {6.9, 9.6}, {7.0, 8.4}, {7.0, 7.8}, {10.5, 7.0}}};

/// How far a point of the arch lies behind its middle.
double arch_mm(double x) {
    return 0.027 * x * x + 2.2e-5 * x * x * x * x;
}

/// A row of teeth with its gum, in the place where it is with the jaw shut.
struct TeethRow {
    const std::array<Crown, 6>& crowns;
    double front_mm;     ///< The middle of the arch.
    double edge_y_mm;    ///< Where the middle teeth bite.
    double towards_gum;  ///< +1 the upper row, −1 the lower one.
    double jaw_deg;
};

void add_teeth(const PersonHead& head, const TeethRow& row, const dvec3& enamel, const dvec3& gum,
               Detail detail, shapes::Mesh& onto) {
    const bool fine = is_fine(detail);
    struct Column {
        double x, height;
        double gap;  ///< 1 between two teeth, 0 in the middle of one.
    };
    std::vector<Column> half;
    double x = 0;
    for (const Crown& crown : row.crowns) {
        for (const auto& [share, gap] : {std::pair{0.0, 1.0}, {0.16, 0.2}, {0.5, 0.0}, {0.84, 0.2}})
            if (detail == Detail::close || gap == 1.0 || gap == 0.0) {
                const double slope = 0.054 * x;
                half.push_back(
                    {x + share * crown.breadth / std::hypot(1.0, slope), crown.height, gap});
            }
        x += crown.breadth / std::hypot(1.0, 0.054 * x);
    }
    std::vector<Column> columns;
    for (std::size_t i = half.size(); i-- > 1;)
        columns.push_back({-half[i].x, half[i].height, half[i].gap});
    columns.insert(columns.end(), half.begin(), half.end());

    struct Row {
        double up;    ///< From the bite to the gum's edge, 0 … 1; beyond 1 on the gum.
        double back;  ///< Behind the foremost part, millimetres.
        bool is_gum;
    };
    static constexpr std::array<Row, 8> fine_rows{{{1.7, 0.6, true},
                                                   {1.12, 0.0, true},
                                                   {1.0, 0.9, false},
                                                   {0.75, 0.3, false},
                                                   {0.4, 0.0, false},
                                                   {0.1, 0.3, false},
                                                   {0.0, 0.9, false},
                                                   {0.08, 3.0, false}}};
    static constexpr std::array<Row, 4> plain_rows{
        {{1.6, 0.4, true}, {1.0, 0.4, false}, {0.0, 0.4, false}, {0.08, 3.0, false}}};
    const Row* rows = fine ? fine_rows.data() : plain_rows.data();
    const std::size_t count = fine ? fine_rows.size() : plain_rows.size();

    Loft loft{static_cast<int>(columns.size()), false, {}};
    for (std::size_t r = 0; r < count; ++r)
        for (const Column& column : columns) {
            // The lower row hangs upside down: its rows still run downwards on the face.
            const Row& at = rows[row.towards_gum > 0 ? r : count - 1 - r];
            const double outward = std::abs(column.x);
            const double rounding = at.is_gum ? 0.0 : 0.9 * column.gap * (1 - at.up);
            const double papilla = at.up >= 1 ? -1.1 * column.gap : 0.0;
            const double up =
                at.up * column.height + rounding + papilla + 0.004 * outward * outward;
            const double back = at.back + (at.is_gum ? 0.0 : 0.7 * column.gap) + arch_mm(outward);
            const dvec3 shut{column.x, row.edge_y_mm + row.towards_gum * up, row.front_mm - back};
            const double shade = 1 - 0.45 * column.gap * (fine ? 1.0 : 0.4);
            const dvec3 tooth = enamel * shade * (at.up > 0.9 ? dvec3{0.95, 0.88, 0.80} : dvec3{1});
            const double inside = glm::smoothstep(12.0, 26.0, outward);
            loft.points.push_back(
                {head.figure_from_plain_model(turned_with_jaw_mm(shut, row.jaw_deg)),
                 at.is_gum ? gum : tooth, (at.back > 2 ? 0.35 : 0.85) * (1 - 0.65 * inside)});
        }
    append(loft, onto);
}

/// From the edges of the lips back into the dark: a bag whose mouth they are.
void add_cavity(const PersonHead& head, const Appearance& look, const HeadTemplate& form,
                shapes::Mesh& onto) {
    std::vector<dvec3> ring;
    for (const std::uint32_t i : form.upper_lip)
        ring.push_back(form.points_mm[i]);
    for (std::size_t k = form.lower_lip.size() - 1; k-- > 1;)
        ring.push_back(form.points_mm[form.lower_lip[k]]);
    for (dvec3& p : ring)
        p = moved_mm(p, head.motion());
    dvec3 middle{0};
    for (const dvec3& p : ring)
        middle += p / static_cast<double>(ring.size());
    struct Depth {
        double back_mm, wider;
        double flesh;  ///< 1 the colour of the lips, 0 the dark.
        double ambient_visibility;
    };
    static constexpr std::array<Depth, 5> depths{{{0.0, 1.0, 1.0, 0.7},
                                                  {2.2, 1.02, 0.60, 0.45},
                                                  {6.0, 1.25, 0.15, 0.28},
                                                  {26.0, 1.2, 0.0, 0.2},
                                                  {42.0, 0.0, 0.0, 0.2}}};
    const dvec3 wet = look.lips * dvec3{0.95, 0.72, 0.70};
    const dvec3 dark{0.030, 0.008, 0.007};
    Loft loft{static_cast<int>(ring.size()), true, {}};
    for (const Depth& depth : depths)
        for (const dvec3& p : ring) {
            // Corners do not widen into the cheeks.
            const dvec3 off = (p - middle) * dvec3{std::min(1.0, depth.wider), depth.wider, 1.0};
            const dvec3 at = middle + off - dvec3{0, 0, depth.back_mm};
            // What the variations do to lips they do to what lies behind them.
            loft.points.push_back({head.figure_from_moved_model(at),
                                   glm::mix(dark, wet, depth.flesh), depth.ambient_visibility});
        }
    append(loft, onto);
}

void add_tongue(const PersonHead& head, const Appearance& look, double edge_y_mm, double front_mm,
                shapes::Mesh& onto) {
    constexpr int columns = 9, rows = 5;
    const dvec3 colour = look.lips * dvec3{0.45, 0.22, 0.22} + dvec3{0.05, 0.008, 0.008};
    Loft loft{columns, false, {}};
    for (int r = 0; r < rows; ++r)
        for (int c = 0; c < columns; ++c) {
            const double u = 2.0 * c / (columns - 1) - 1, v = r / (rows - 1.0);
            const double x = 17.0 * u * std::sqrt(1 - 0.7 * v * v);
            const double hump = std::sqrt(std::max(0.0, 1 - 0.8 * u * u));
            const double groove = 1.2 * hill(u / 0.18);
            const double y = edge_y_mm - 2.0 - 9.0 * v * v + (hump - 1) * 5.0 - groove;
            const double z = front_mm - 30.0 + 24.0 * std::sin(0.5 * std::numbers::pi * v);
            loft.points.push_back(
                {head.figure_from_plain_model(turned_with_jaw_mm({x, y, z}, head.motion().jaw_deg)),
                 colour * (0.9 + 0.1 * hump), 0.22 + 0.20 * v});
        }
    append(loft, onto);
}

/// Seen small, teeth are a pale band on the lips.
void add_pale_band(const PersonHead& head, const dvec3& enamel, shapes::Mesh& onto) {
    constexpr int columns = 4;
    const double high = 0.5 * head.motion().parted_mm + 0.3 * head.motion().jaw_deg;
    Loft loft{columns, false, {}};
    for (const double share : {1.0, 0.0})
        for (int c = 0; c < columns; ++c) {
            const double x = 0.8 * mouth_half_width_mm * (2.0 * c / (columns - 1) - 1);
            const double t = x / mouth_half_width_mm;
            const double y = mouth_line_y_mm(x) + high * (share - 0.5) * (1 - 0.8 * t * t);
            const dvec3 p{x, y, face_z_mm(x, y, bare_front_z_mm(x, y)) + 4.0};
            loft.points.push_back({head.figure_from_model(p), enamel * 0.8, 0.7});
        }
    append(loft, onto);
}

}  // namespace

void add_mouth(const PersonHead& head, const Appearance& look, const HeadTemplate& form,
               const BodyMeasures& measures, Detail detail, shapes::Mesh& onto) {
    const double yellow = glm::smoothstep(20.0, 75.0, measures.age_years);
    const dvec3 enamel = glm::mix(dvec3{0.66, 0.62, 0.54}, dvec3{0.54, 0.46, 0.34}, yellow);
    if (form.upper_lip.empty()) {
        add_pale_band(head, enamel, onto);
        return;
    }
    const dvec3 gum = glm::mix(look.lips, dvec3{0.42, 0.17, 0.17}, 0.6);
    // Lips lie on the teeth with a thickness of some millimetres; the upper row bites over the
    // lower one.
    const double line = mouth_line_y_mm(0);
    const double front = face_z_mm(0, line, bare_front_z_mm(0, line)) - 4.5;
    add_cavity(head, look, form, onto);
    add_teeth(head, {upper_crowns, front, line - 3.2, 1.0, 0.0}, enamel, gum, detail, onto);
    if (head.motion().jaw_deg < 4)
        return;
    add_teeth(head, {lower_crowns, front - 2.6, line - 1.8, -1.0, head.motion().jaw_deg},
              enamel * 0.94, gum, detail, onto);
    if (is_fine(detail))
        add_tongue(head, look, line - 4.0, front - 5.0, onto);
}

}  // namespace backrow::figures
