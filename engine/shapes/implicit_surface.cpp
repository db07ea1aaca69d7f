#include "shapes/implicit_surface.h"

#include <glm/common.hpp>
#include <glm/geometric.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <vector>

namespace backrow::shapes {
namespace {

using glm::dvec3;

/// Field values at the corners of the cells, x fastest.
struct Corners {
    std::array<int, 3> count{};
    std::vector<double> value;

    [[nodiscard]] std::size_t index(int x, int y, int z) const {
        return (static_cast<std::size_t>(z) * static_cast<std::size_t>(count[1]) +
                static_cast<std::size_t>(y)) *
                   static_cast<std::size_t>(count[0]) +
               static_cast<std::size_t>(x);
    }
};

Corners sample(const Field& field, const Cells& cells) {
    Corners corners;
    for (int axis = 0; axis < 3; ++axis) {
        const double cells_across =
            std::ceil((cells.most[axis] - cells.least[axis]) / cells.size[axis]);
        corners.count[static_cast<std::size_t>(axis)] = static_cast<int>(cells_across) + 2;
    }
    const auto [nx, ny, nz] = corners.count;
    corners.value.reserve(corners.index(0, 0, nz));
    for (int z = 0; z < nz; ++z)
        for (int y = 0; y < ny; ++y)
            for (int x = 0; x < nx; ++x)
                corners.value.push_back(field(cells.least + cells.size * dvec3(x, y, z)));
    return corners;
}

/// Mean of the points where the surface cuts the twelve edges of a cell, in cell units from the
/// cell's least corner. False where it cuts none.
bool middle_of_crossings(const std::array<double, 8>& v, dvec3& middle) {
    static constexpr std::array<std::array<std::size_t, 2>, 12> edges{{{0, 1},
                                                                       {2, 3},
                                                                       {4, 5},
                                                                       {6, 7},
                                                                       {0, 2},
                                                                       {1, 3},
                                                                       {4, 6},
                                                                       {5, 7},
                                                                       {0, 4},
                                                                       {1, 5},
                                                                       {2, 6},
                                                                       {3, 7}}};
    const auto corner = [](std::size_t i) { return dvec3(i & 1, (i >> 1) & 1, i >> 2); };
    dvec3 sum{0};
    int crossings = 0;
    for (const auto& [a, b] : edges) {
        if ((v[a] < 0) == (v[b] < 0))
            continue;
        sum += glm::mix(corner(a), corner(b), v[a] / (v[a] - v[b]));
        ++crossings;
    }
    if (crossings == 0)
        return false;
    middle = sum / static_cast<double>(crossings);
    return true;
}

}  // namespace

dvec3 gradient_direction(const Field& field, const dvec3& at, double step) {
    const dvec3 g{field(at + dvec3{step, 0, 0}) - field(at - dvec3{step, 0, 0}),
                  field(at + dvec3{0, step, 0}) - field(at - dvec3{0, step, 0}),
                  field(at + dvec3{0, 0, step}) - field(at - dvec3{0, 0, step})};
    const double length = glm::length(g);
    return length > 0 ? g / length : dvec3{0, 1, 0};
}

Mesh surface_nets(const Field& field, const Cells& cells) {
    const Corners corners = sample(field, cells);
    const auto [nx, ny, nz] = corners.count;
    constexpr std::uint32_t none = ~std::uint32_t{0};
    std::vector<std::uint32_t> vertex_of(corners.value.size(), none);
    const double step = 0.2 * std::min({cells.size.x, cells.size.y, cells.size.z});

    Mesh mesh;
    for (int z = 0; z + 1 < nz; ++z)
        for (int y = 0; y + 1 < ny; ++y)
            for (int x = 0; x + 1 < nx; ++x) {
                std::array<double, 8> v{};
                for (std::size_t i = 0; i < 8; ++i)
                    v[i] = corners.value[corners.index(x + static_cast<int>(i & 1),
                                                       y + static_cast<int>((i >> 1) & 1),
                                                       z + static_cast<int>(i >> 2))];
                dvec3 within{0};
                if (!middle_of_crossings(v, within))
                    continue;
                dvec3 at = cells.least + cells.size * (dvec3(x, y, z) + within);
                // The mean of the crossings cuts corners; one step along the gradient mends it.
                const double off = std::clamp(field(at), -step, step);
                at -= off * gradient_direction(field, at, step);
                vertex_of[corners.index(x, y, z)] =
                    static_cast<std::uint32_t>(mesh.vertices.size());
                mesh.vertices.push_back({.position_m = glm::vec3(at),
                                         .normal = glm::vec3(gradient_direction(field, at, step))});
            }

    // Every crossed grid edge is shared by four cells, whose vertices make a quad; it faces along
    // the edge where the edge leaves the body.
    const auto quad = [&](std::size_t a, std::size_t b, std::size_t c, std::size_t d, bool leaves) {
        const std::uint32_t p = vertex_of[a], q = vertex_of[b], r = vertex_of[c], s = vertex_of[d];
        const auto at = [&](std::uint32_t i) { return mesh.vertices[i].position_m; };
        const glm::vec3 pr = at(r) - at(p), qs = at(s) - at(q);
        // The shorter diagonal folds less.
        const bool by_pr = glm::dot(pr, pr) <= glm::dot(qs, qs);
        std::array<std::uint32_t, 6> t =
            by_pr ? std::array{p, q, r, p, r, s} : std::array{p, q, s, q, r, s};
        if (!leaves) {
            std::swap(t[1], t[2]);
            std::swap(t[4], t[5]);
        }
        mesh.indices.insert(mesh.indices.end(), t.begin(), t.end());
    };
    for (int z = 1; z + 1 < nz; ++z)
        for (int y = 1; y + 1 < ny; ++y)
            for (int x = 1; x + 1 < nx; ++x) {
                const auto i = [&](int dx, int dy, int dz) {
                    return corners.index(x + dx, y + dy, z + dz);
                };
                const bool inside = corners.value[i(0, 0, 0)] < 0;
                if (inside != (corners.value[i(1, 0, 0)] < 0))
                    quad(i(0, -1, -1), i(0, 0, -1), i(0, 0, 0), i(0, -1, 0), inside);
                if (inside != (corners.value[i(0, 1, 0)] < 0))
                    quad(i(-1, 0, -1), i(-1, 0, 0), i(0, 0, 0), i(0, 0, -1), inside);
                if (inside != (corners.value[i(0, 0, 1)] < 0))
                    quad(i(-1, -1, 0), i(0, -1, 0), i(0, 0, 0), i(-1, 0, 0), inside);
            }
    return mesh;
}

}  // namespace backrow::shapes
