#include "figures/head/ears.h"

#include "figures/head/head_form.h"
#include "figures/head/head_template.h"
#include "figures/skin/skin_detail.h"

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

/// A ring of the shell: its size against the outline, and how far it stands out of the ear's plane.
struct EarRing {
    double size, out_mm, ambient_visibility;
};

/// From the canal over the hollow, the inner fold and the rolled rim to the back of the ear.
constexpr std::array<EarRing, 8> rings{{{0.10, -5.5, 0.35},
                                        {0.34, -3.5, 0.50},
                                        {0.52, 2.2, 0.90},
                                        {0.70, 0.2, 0.68},
                                        {0.86, 2.8, 1.00},
                                        {1.00, 2.6, 1.00},
                                        {1.03, -0.8, 0.85},
                                        {0.60, -9.0, 0.45}}};

/// Outline of the ear in its plane: full above, narrowing to the lobe. Angle from forwards, upwards
/// positive; millimetres forward and up.
glm::dvec2 outline(double angle) {
    const double up = std::sin(angle), forward = std::cos(angle);
    const double width = glm::mix(12.5, 18.0, glm::smoothstep(-0.7, 0.4, up));
    // Rounder than an oval above and at the lobe.
    const double round = std::copysign(std::pow(std::abs(forward), 0.82), forward);
    return {round * width - 3.0 * glm::smoothstep(-0.2, 1.0, up),
            31.0 * std::copysign(std::pow(std::abs(up), 0.92), up)};
}

}  // namespace

void add_ears(const PersonHead& head, const Appearance& look, Detail detail, shapes::Mesh& onto) {
    const int spokes = detail == Detail::close    ? 30
                       : is_fine(detail)          ? 14
                       : detail == Detail::middle ? 10
                                                  : 6;
    const std::size_t step = is_fine(detail) ? 1 : 2;
    const dvec3 ear = model_ear_mm();
    for (const double sign : {1.0, -1.0}) {
        // The plane of the ear opens backwards from the head.
        const double open_rad = 0.42;
        const dvec3 forward{-std::sin(open_rad), 0.10, std::cos(open_rad)};
        const dvec3 out{std::cos(open_rad), 0.05, std::sin(open_rad)};
        const dvec3 middle = ear + dvec3{4.5, 3.0, -13.0};
        const auto first = static_cast<std::uint32_t>(onto.vertices.size());
        std::uint32_t rows = 0;
        for (std::size_t r = 0; r < rings.size(); r += step, ++rows)
            for (int i = 0; i < spokes; ++i) {
                const glm::dvec2 edge = outline(2 * std::numbers::pi * i / spokes) * rings[r].size;
                // In front, the rim runs out into the cheek.
                const double front =
                    glm::smoothstep(0.3, 1.0, std::cos(2 * std::numbers::pi * i / spokes));
                dvec3 p = middle + forward * edge.x + dvec3{0, edge.y, 0} +
                          out * (rings[r].out_mm * (1 - 0.8 * front) - 2.5 * front);
                p.x *= sign;
                dvec3 colour = look.skin * dvec3{1.02, 0.92, 0.90};
                colour *= glm::mix(0.80, 1.0, rings[r].ambient_visibility);
                onto.vertices.push_back(
                    {.position_m = glm::vec3(head.figure_from_plain_model(p)),
                     .colour = glm::vec3(colour),
                     .ambient_visibility = static_cast<float>(rings[r].ambient_visibility),
                     .uv = skin_uv(60 + edge.x, 32 + edge.y)});
            }
        const auto n = static_cast<std::uint32_t>(spokes);
        const std::size_t first_index = onto.indices.size();
        for (std::uint32_t r = 0; r + 1 < rows; ++r)
            for (std::uint32_t i = 0; i < n; ++i) {
                const std::uint32_t j = (i + 1) % n;
                const std::uint32_t a = first + r * n + i, b = first + r * n + j;
                const std::uint32_t c = a + n, d = b + n;
                if (sign > 0)
                    onto.indices.insert(onto.indices.end(), {a, b, c, b, d, c});
                else
                    onto.indices.insert(onto.indices.end(), {a, c, b, b, c, d});
            }
        std::vector<glm::vec3> normals(onto.vertices.size() - first, glm::vec3{0});
        for (std::size_t k = first_index; k < onto.indices.size(); k += 3) {
            const glm::vec3& a = onto.vertices[onto.indices[k]].position_m;
            const glm::vec3& b = onto.vertices[onto.indices[k + 1]].position_m;
            const glm::vec3& c = onto.vertices[onto.indices[k + 2]].position_m;
            for (std::size_t e = 0; e < 3; ++e)
                normals[onto.indices[k + e] - first] += glm::cross(b - a, c - a);
        }
        for (std::size_t k = 0; k < normals.size(); ++k) {
            const float length = glm::length(normals[k]);
            if (length > 0)
                onto.vertices[first + k].normal = normals[k] / length;
        }
    }
}

}  // namespace backrow::figures
