#include "figures/loft.h"

#include <glm/common.hpp>
#include <glm/geometric.hpp>

#include <algorithm>
#include <array>
#include <cstdint>

namespace backrow::figures {

using glm::dvec3;

void append(const Loft& loft, shapes::Mesh& onto) {
    const auto columns = static_cast<std::uint32_t>(loft.columns);
    const auto count = static_cast<std::uint32_t>(loft.points.size());
    const std::uint32_t rows = count / columns;
    const auto first = static_cast<std::uint32_t>(onto.vertices.size());
    std::vector<dvec3> normals(count, dvec3{0});

    const auto triangle = [&](std::uint32_t a, std::uint32_t b, std::uint32_t c) {
        const dvec3 &p = loft.points[a].at_m, &q = loft.points[b].at_m, &r = loft.points[c].at_m;
        const dvec3 n = glm::cross(q - p, r - p);
        // A square of a hundredth of a millimetre.
        const double least_area_m2 = 1e-10;
        if (glm::dot(n, n) < least_area_m2 * least_area_m2)
            return;
        for (const std::uint32_t i : {a, b, c}) {
            normals[i] += n;
            onto.indices.push_back(first + i);
        }
    };
    for (std::uint32_t r = 0; r + 1 < rows; ++r)
        for (std::uint32_t c = 0; c + (loft.closed ? 0 : 1) < columns; ++c) {
            const std::uint32_t a = r * columns + c, b = r * columns + (c + 1) % columns;
            triangle(a, a + columns, b);
            triangle(b, a + columns, b + columns);
        }
    // Points at one place share one normal: a whorl, a finger tip.
    for (const std::uint32_t row : {0u, rows - 1}) {
        const std::uint32_t begin = row * columns;
        if (glm::distance(loft.points[begin].at_m, loft.points[begin + columns / 2].at_m) > 1e-9)
            continue;
        dvec3 sum{0};
        for (std::uint32_t c = 0; c < columns; ++c)
            sum += normals[begin + c];
        std::fill_n(normals.begin() + begin, columns, sum);
    }
    for (std::uint32_t i = 0; i < count; ++i) {
        const LoftPoint& point = loft.points[i];
        const double length = glm::length(normals[i]);
        onto.vertices.push_back(
            {.position_m = glm::vec3(point.at_m),
             .normal = length > 0 ? glm::vec3(normals[i] / length) : glm::vec3{0, 1, 0},
             .colour = glm::vec3(glm::clamp(point.colour, dvec3{0.004}, dvec3{0.95})),
             .openness = static_cast<float>(std::clamp(point.openness, 0.2, 1.0))});
    }
}

}  // namespace backrow::figures
