#include "figures/body/loft.h"

#include "figures/skin/skin_detail.h"

#include "base/units.h"

#include <glm/common.hpp>
#include <glm/geometric.hpp>

#include <algorithm>
#include <array>
#include <cstdint>

namespace backrow::figures {

using glm::dvec3;

namespace {

/// Places on the sheet. Across, by the longest row, and in a closed surface up to its half and back
/// again, so that the ends meet; along, each column by its own length.
std::vector<glm::vec2> places_on_sheet(const Loft& loft, Cover cover) {
    const auto columns = static_cast<std::size_t>(loft.columns);
    const std::size_t rows = loft.points.size() / columns;
    std::vector<glm::vec2> uv(loft.points.size(), glm::vec2{0});
    if (cover == Cover::plain)
        return uv;
    std::vector<double> across_m;
    for (std::size_t r = 0; r < rows; ++r) {
        std::vector<double> so_far{0};
        for (std::size_t c = 1; c <= columns; ++c)
            so_far.push_back(so_far.back() +
                             glm::distance(loft.points[r * columns + c - 1].at_m,
                                           loft.points[r * columns + c % columns].at_m));
        if (across_m.empty() || so_far.back() > across_m.back())
            across_m = std::move(so_far);
    }
    for (std::size_t c = 0; c < columns; ++c) {
        double across = across_m[c], along = 0;
        if (loft.closed)
            across = std::min(across, across_m.back() - across);
        for (std::size_t r = 0; r < rows; ++r) {
            const std::size_t i = r * columns + c;
            if (r > 0)
                along += glm::distance(loft.points[i].at_m, loft.points[i - columns].at_m);
            uv[i] = cover == Cover::skin ? skin_uv(mm_from_m(across), mm_from_m(along))
                                         : hair_uv(mm_from_m(across), mm_from_m(along));
        }
    }
    return uv;
}

}  // namespace

void append(const Loft& loft, shapes::Mesh& onto, Cover cover) {
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
    const std::vector<glm::vec2> uv = places_on_sheet(loft, cover);
    for (std::uint32_t i = 0; i < count; ++i) {
        const LoftPoint& point = loft.points[i];
        const double length = glm::length(normals[i]);
        onto.vertices.push_back(
            {.position_m = glm::vec3(point.at_m),
             .normal = length > 0 ? glm::vec3(normals[i] / length) : glm::vec3{0, 1, 0},
             .colour = glm::vec3(glm::clamp(point.colour, dvec3{0.004}, dvec3{0.95})),
             .ambient_visibility =
                 static_cast<float>(std::clamp(point.ambient_visibility, 0.2, 1.0)),
             .uv = uv[i]});
    }
}

}  // namespace backrow::figures
