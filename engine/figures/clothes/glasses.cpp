#include "figures/clothes/glasses.h"

#include "figures/body/loft.h"
#include "figures/head/head_form.h"

#include <glm/common.hpp>
#include <glm/geometric.hpp>

#include <cmath>
#include <numbers>
#include <vector>

namespace backrow::figures {
namespace {

using glm::dvec3;

// Millimetres of the modelled head. Lenses stand a finger's breadth before the corneas.
constexpr double half_width_mm = 23.0;
constexpr double half_height_mm = 17.5;
constexpr double lens_middle_x_mm = model::pupil_x + 1.5;
constexpr double lens_middle_y_mm = -3.0;
constexpr double rim_mm = 1.15;  ///< Half its thickness.
constexpr dvec3 frame_colour{0.018, 0.015, 0.014};

/// The plane of the lenses, bowed back round the face.
double lens_z_mm(double x_mm) {
    return 98.5 - 0.0024 * x_mm * x_mm;
}

/// On the rim of the left lens: between an oval and a box, flatter above.
dvec3 on_rim(double around_rad) {
    const double c = std::cos(around_rad), s = std::sin(around_rad);
    const double x = std::copysign(std::pow(std::abs(c), 0.72), c) * half_width_mm;
    const double y = std::copysign(std::pow(std::abs(s), 0.80), s) * half_height_mm;
    const double at_x = lens_middle_x_mm + x * (1 - 0.06 * (s < 0 ? -s : 0.0));
    return {at_x, lens_middle_y_mm + y * (s > 0 ? 0.92 : 1.0), lens_z_mm(at_x)};
}

/// A wire through points of the model; `sign` mirrors it.
void add_wire(const PersonHead& head, const std::vector<dvec3>& line_mm, double radius_mm,
              bool closed, double sign, int corners, shapes::Mesh& onto) {
    Loft loft{corners, true, {}};
    const std::size_t n = line_mm.size();
    const std::size_t rows = closed ? n + 1 : n;
    for (std::size_t r = 0; r < rows; ++r) {
        const std::size_t i = r % n;
        const dvec3& next = line_mm[closed ? (i + 1) % n : std::min(i + 1, n - 1)];
        const dvec3& last = line_mm[closed ? (i + n - 1) % n : (i == 0 ? 0 : i - 1)];
        const dvec3 along = glm::normalize(next - last);
        const dvec3 other = std::abs(along.z) < 0.7 ? dvec3{0, 0, 1} : dvec3{0, 1, 0};
        const dvec3 side = glm::normalize(glm::cross(along, other));
        const dvec3 up = glm::cross(side, along);
        for (int c = 0; c < corners; ++c) {
            const double a = sign * 2 * std::numbers::pi * c / corners;
            dvec3 p = line_mm[i] + (side * std::cos(a) + up * std::sin(a)) * radius_mm;
            p.x *= sign;
            loft.points.push_back({head.figure_from_plain_model(p), frame_colour, 0.9});
        }
    }
    append(loft, onto);
}

}  // namespace

void add_glasses(const PersonHead& head, Detail detail, FigureMesh& onto) {
    if (detail == Detail::far)
        return;
    const int corners = detail == Detail::close ? 6 : detail == Detail::near ? 4 : 3;
    const int around = detail == Detail::close ? 32 : detail == Detail::near ? 16 : 7;
    std::vector<dvec3> rim;
    for (int i = 0; i < around; ++i)
        rim.push_back(on_rim(2 * std::numbers::pi * i / around));
    const double inner_x = lens_middle_x_mm - half_width_mm;
    const std::vector<dvec3> bridge{{inner_x, 1.5, lens_z_mm(inner_x)},
                                    {0.5 * inner_x, 4.2, lens_z_mm(0) + 0.6},
                                    {-0.5 * inner_x, 4.2, lens_z_mm(0) + 0.6},
                                    {-inner_x, 1.5, lens_z_mm(inner_x)}};
    const double outer_x = lens_middle_x_mm + half_width_mm;
    // From the hinge past the temple to the top of the ear, and a little down behind it.
    std::vector<dvec3> temple{{outer_x, 6.0, lens_z_mm(outer_x)}};
    const std::vector<double> stations =
        is_fine(detail) ? std::vector<double>{84, 62, 40, 20, 2, -8} : std::vector<double>{62, 2};
    for (const double z : stations) {
        const double y = 7.0 - 7.0 * (1 - glm::smoothstep(-10.0, 8.0, z));
        const dvec3 skin = bare_form_mm(dvec3{70.0, y, z} - head_middle_mm);
        temple.push_back({std::max(skin.x + 2.2, glm::mix(71.0, outer_x + 2.5, z / 92.0)), y, z});
    }
    for (const double sign : {1.0, -1.0}) {
        add_wire(head, rim, rim_mm, true, sign, corners, onto.face);
        add_wire(head, temple, 0.9 * rim_mm, false, sign, corners, onto.body);
    }
    add_wire(head, bridge, rim_mm, false, 1.0, corners, onto.face);
}

}  // namespace backrow::figures
